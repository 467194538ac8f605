"""Guidance of the trade that belongs to no single product: what installation cards add, and troubles with remedies."""
