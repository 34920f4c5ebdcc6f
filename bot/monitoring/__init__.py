"""The program seen from outside: whether it lives, whether it is ready, and its figures."""
