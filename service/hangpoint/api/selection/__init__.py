"""Answers to requests that choose products."""
