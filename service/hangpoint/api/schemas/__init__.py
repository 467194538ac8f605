"""Schemas of requests and answers: each is validator and source of the OpenAPI document at once."""
