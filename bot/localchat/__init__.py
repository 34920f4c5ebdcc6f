"""A chat service on loopback, for the demo and the tests."""
