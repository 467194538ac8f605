"""Reverse questions, remedies, relocations and sensitivities: read off sweeps of the check of hang points itself.

Every probe is a hang point that anyone can post. Nothing here has a formula of strength.
"""
