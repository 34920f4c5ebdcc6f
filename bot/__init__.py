"""The program around the rules: doors, use-cases, words, rows."""
