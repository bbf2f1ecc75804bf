"""The commands: arguments in, words out, nothing else."""
