"""Tests of the cutting optimizer."""
