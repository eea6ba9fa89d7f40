"""The checks: each compares claims of the document with what was measured."""
