"""How urgent a stop sign is: which of the fixed texts is sent."""

from enum import StrEnum


class Urgency(StrEnum):
    """Which of the fixed texts is sent."""

    EMERGENCY_NOW = "emergency now"
    DOCTOR_TODAY = "a doctor today"
    DOCTOR_FIRST = "a doctor before you train again"
    DISTRESS = "distress"
