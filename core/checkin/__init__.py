"""What is heard: replies, pain, stop signs."""
