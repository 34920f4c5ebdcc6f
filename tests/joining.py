"""Answers that take somebody through joining, by buttons and by words."""

from setting_out import House, Someone, plain_text

from bot.messages import Level

BY_BUTTON = {
    "caution": ["Go on"],
    "consent": ["I agree"],
    "age": ["18–39"],
    "pregnancy": ["Neither"],
    "health": ["None of these"],
    "limits": ["Nothing"],
    "unit": ["kg"],
    "zone": ["Same clock as Lisbon"],
    "hour": ["07:00"],
    "days": ["Mon", "Tue", "Thu", "That is all"],
    "minutes": ["60 min"],
    "place": ["Gym"],
    "kit": ["Bar and plates"],
    "alone": ["Alone"],
    "experience": ["Under 3 months"],
}
BY_TEXT = {
    "caution": "go on",
    "consent": "I agree",
    "age": "34",
    "pregnancy": "neither",
    "health": "none",
    "limits": "nothing",
    "unit": "KG",
    "zone": "lisbon",
    "hour": "7",
    "days": "mon tue thu",
    "minutes": "1 h",
    "place": "at the gym",
    "kit": "bar",
    "alone": "alone",
    "experience": "2 months",
}
STEPS = list(BY_BUTTON)


def answer(person: Someone, step: str, by: str) -> None:
    if by == "text":
        person.type(BY_TEXT[step])
    else:
        for label in BY_BUTTON[step]:
            person.tap(label)


def up_to(person: Someone, step: str, by: str = "button") -> None:
    for each in STEPS[: STEPS.index(step)]:
        answer(person, each, by)


def joins(person: Someone, by: str = "button") -> None:
    for step in STEPS:
        answer(person, step, by)


def told(house: House) -> list[tuple[Level, str]]:
    return [(tell.level, plain_text(tell.message).split("\n")[0]) for tell in house.tells]
