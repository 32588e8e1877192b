"""Gas quality from composition: pure arithmetic on numbers, numbers with uncertainty, and rows."""
