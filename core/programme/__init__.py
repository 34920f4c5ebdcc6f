"""What is written: blocks, prescriptions, exercises."""
