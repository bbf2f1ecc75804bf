"""What a trainer would otherwise work out by hand: pure functions on the series' records.

No function here reads a file, a clock or a setting of the machine. Each formula names its source.
"""
