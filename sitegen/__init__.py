"""sitegen: compile a folder about a series of home workouts into a complete web site."""

__version__ = "0.1.0"
