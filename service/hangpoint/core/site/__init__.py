"""What happens on site, as numbers: turns of a rod, distance from a given-up hole, proof loads and results."""
