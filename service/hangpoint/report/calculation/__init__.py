"""Calculation sheets: what an answer says of a hang point, laid out for the engineer who recomputes and signs it."""
