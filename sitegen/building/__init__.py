"""Writing the site: only what changed, all of it or nothing, one build at a time."""
