"""What comes next: kit, estimates, decisions."""
