"""The invented works behind the sample: a small physical model, closed on every element."""
