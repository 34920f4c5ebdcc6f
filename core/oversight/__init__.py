"""What a coach must hear."""
