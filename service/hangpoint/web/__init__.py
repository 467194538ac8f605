"""The form: one page and its files, which call the service as any client does."""
