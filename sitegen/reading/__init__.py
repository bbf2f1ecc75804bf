"""Reading content files: from bytes to the checked model, with every problem at its place."""
