"""Messages out: lanes, pacing, outcomes."""
