"""The settings that the operator gave, before anything else is loaded: bad ones are refused at once."""

import os

from rich.console import Console

from bot.settings import Settings, SettingsProblem, read_settings


def settings_or_none(errors: Console, *, token: bool) -> Settings | None:
    """Read the settings; print what to set where they cannot be read."""
    try:
        return read_settings(os.environ, token_needed=token)
    except SettingsProblem as problem:
        errors.print(str(problem), markup=False)
        return None
