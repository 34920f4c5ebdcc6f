"""Commands; reads the settings once."""

from bot.cli.app import app

__all__ = ["app"]
