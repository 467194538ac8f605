"""Choosing products: candidates x points as one more batch of the chain, ranked, and a whole job at once."""
