"""Printed pages as PDF."""
