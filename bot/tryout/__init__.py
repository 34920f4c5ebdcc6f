"""`plimsoll try`: the whole program on this machine, looked at and spoken to in a browser."""
