"""Drawings and photographs become patterns."""
