"""The commands, one file each: they parse options, call the rooms and print."""
