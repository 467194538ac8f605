"""Results of fixtures, from columns to JSON."""
