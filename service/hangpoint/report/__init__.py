"""Answers as schedules: rows and cells, without markup."""
