"""The settings that the operator gave, before anything else is loaded: bad ones are refused at once."""

import os

from rich.console import Console

from bot.settings import PREFIX, Settings, SettingsProblem, read_settings


def settings_or_none(errors: Console, *, token: bool, **typed: str | None) -> Settings | None:
    """Read the settings, those that were typed going first; print what to set where they cannot be read."""
    given = {f"{PREFIX}{name.upper()}": value for name, value in typed.items() if value is not None}
    try:
        return read_settings(os.environ | given, token_needed=token)
    except SettingsProblem as problem:
        errors.print(str(problem), markup=False)
        return None
