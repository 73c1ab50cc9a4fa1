"""The commands of `pinchbolt`, by what they are about."""
