"""Settings, read once by the command line and handed down; nothing else reads the environment."""

import re
from collections.abc import Mapping
from difflib import get_close_matches
from ipaddress import IPv4Address
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AnyHttpUrl, Field, IPvAnyAddress, SecretStr, ValidationError, field_validator
from pydantic_settings import (
    BaseSettings,
    DotEnvSettingsSource,
    PydanticBaseSettingsSource,
    SettingsConfigDict,
)

PREFIX = "PLIMSOLL_"


class Settings(BaseSettings):
    """What the operator may set. What a coach may set is in the database."""

    model_config = SettingsConfigDict(
        env_prefix=PREFIX,
        extra="forbid",
        frozen=True,
        hide_input_in_errors=True,
        use_attribute_docstrings=True,
    )

    token: SecretStr | None = None
    """Token of the bot, from the platform. Needed by `plimsoll serve` alone."""

    # A password may stand in it, which no picture of the settings must show.
    database_url: Annotated[str, Field(repr=False)] = "sqlite:///plimsoll.db"
    """The database: `sqlite:///FILE`, or `postgresql://USER@HOST/NAME`."""

    api_url: AnyHttpUrl = AnyHttpUrl("https://api.telegram.org")
    """Root of the Bot API server, without `/bot`."""

    messages_per_second: Annotated[float, Field(gt=0, le=30)] = 25
    """Most messages over all chats; more than 0, at most 30. [1/s]"""

    tick_s: Annotated[float, Field(gt=0, le=300)] = 15
    """How often the program looks for what falls due; more than 0, at most 300. [s]"""

    log_format: Literal["auto", "text", "json"] = "auto"
    """`text`, `json`, or `auto`: text on a terminal and JSON otherwise."""

    backup_dir: Path | None = None
    """Folder for backups, one each night; on SQLite."""

    backups_kept: Annotated[int, Field(ge=1, le=1000)] = 7
    """How many backups are kept; at least 1, at most 1000."""

    silence_s: Annotated[float, Field(ge=120, le=86400)] = 600
    """How long `plimsoll serve` goes on while no fetch from the platform is answered; 120 to 86400. [s]"""

    monitoring_port: Annotated[int, Field(ge=1, le=65535)] | None = None
    """Where `/healthz`, `/readyz` and `/metrics` are served over HTTP; 1 to 65535."""

    monitoring_address: IPvAnyAddress = IPv4Address("127.0.0.1")
    """Which address of this machine they are served on; on any but loopback others can read them."""

    webhook_url: AnyHttpUrl | None = None
    """Where the platform is to bring messages, instead of having them fetched; https, at 443, 80, 88 or 8443."""

    webhook_secret: SecretStr | None = None
    """What the platform shows when it brings one; 16 to 256 of A-Z a-z 0-9 _ -. Needed with `PLIMSOLL_WEBHOOK_URL`."""

    webhook_port: Annotated[int, Field(ge=1, le=65535)] = 8088
    """Where `plimsoll serve` then listens, over HTTP, for the proxy before it; 1 to 65535."""

    webhook_address: IPvAnyAddress = IPv4Address("127.0.0.1")
    """Which address of this machine it then listens on."""

    @field_validator("webhook_url")
    @classmethod
    def _reached_by_the_platform(cls, url: AnyHttpUrl | None) -> AnyHttpUrl | None:
        # Source: setWebhook of the Bot API.
        if url is not None and (url.scheme != "https" or url.port not in {443, 80, 88, 8443}):
            raise ValueError("it is not https at one of those ports")
        if url is not None and (url.username or url.password or url.query or url.fragment):
            raise ValueError("it has more than a host, a port and a path")
        return url

    @field_validator("webhook_secret")
    @classmethod
    def _hard_to_guess(cls, secret: SecretStr | None) -> SecretStr | None:
        # What it may hold: setWebhook of the Bot API. How short it may be: our proposal.
        if secret is not None and not re.fullmatch(r"[A-Za-z0-9_-]{16,256}", secret.get_secret_value()):
            raise ValueError("it is too short or too long, or has other characters")
        return secret

    @field_validator("database_url")
    @classmethod
    def _known_database(cls, url: str) -> str:
        # The store, which knows such addresses, is a floor above.
        if not url.startswith(("sqlite://", "postgresql://", "postgresql+psycopg://")):
            raise ValueError("it starts with neither sqlite:// nor postgresql://")
        return url

    @field_validator("api_url")
    @classmethod
    def _a_root(cls, url: AnyHttpUrl) -> AnyHttpUrl:
        if (url.path or "").rstrip("/").endswith("/bot"):
            raise ValueError("it ends in /bot")
        return url

    @classmethod
    def settings_customise_sources(
        cls,
        settings_cls: type[BaseSettings],  # noqa: ARG003  (signature of the base class)
        init_settings: PydanticBaseSettingsSource,
        env_settings: PydanticBaseSettingsSource,  # noqa: ARG003  (the same)
        dotenv_settings: PydanticBaseSettingsSource,  # noqa: ARG003  (the same)
        file_secret_settings: PydanticBaseSettingsSource,  # noqa: ARG003  (the same)
    ) -> tuple[PydanticBaseSettingsSource, ...]:
        """Take values from `read_settings` alone, so that whoever builds settings sees all that is in them."""
        return (init_settings,)


class SettingsProblem(Exception):
    """A setting that the operator must mend.

    Attributes:
        key: Name of the variable.
        what: "missing", "unknown" or "bad".
        advice: What to set. A value that was given is never repeated: it may be the token.
    """

    def __init__(self, key: str, what: str, advice: str) -> None:
        super().__init__(key, what, advice)
        self.key = key
        self.what = what
        self.advice = advice

    def __str__(self) -> str:
        head = {"missing": "is not set.", "unknown": "is not a setting.", "bad": "cannot be used:"}[self.what]
        return f"{self.key} {head} {self.advice}"


def read_settings(
    environ: Mapping[str, str], *, env_file: Path | None = Path(".env"), token_needed: bool = True
) -> Settings:
    """Read the settings from `environ` and from `env_file`, where the file exists; `environ` goes first.

    Variables without the prefix are somebody else's. An empty value counts as not set.

    Raises:
        SettingsProblem: The token is missing, a name is unknown or a value cannot be used.
    """
    given = (_in_file(env_file) if env_file is not None else {}) | _ours(environ)
    for name in given:
        if name not in Settings.model_fields:
            raise SettingsProblem(_key(name), "unknown", _nearest(name))
    values = {name: value for name, value in given.items() if value.strip()}
    if token_needed and "token" not in values:
        raise SettingsProblem(
            _key("token"), "missing", "Set it to the token that the platform gave your bot."
        )
    if "webhook_url" in values and "webhook_secret" not in values:
        raise SettingsProblem(
            _key("webhook_secret"),
            "missing",
            f"With {_key('webhook_url')} it is needed: a long word of your own.",
        )
    try:
        return Settings.model_validate(values)
    except ValidationError as error:
        first = error.errors(include_url=False, include_context=False)[0]
        name = str(first["loc"][0])
        told = first["msg"].removeprefix("Value error, ").replace("Input", "it", 1)
        about = " ".join((Settings.model_fields[name].description or "").split())
        raise SettingsProblem(_key(name), "bad", f"{told}. {about}") from None


def _ours(variables: Mapping[str, str | None]) -> dict[str, str]:
    return {
        key[len(PREFIX) :].lower(): value or ""
        for key, value in variables.items()
        if key.upper().startswith(PREFIX)
    }


def _in_file(path: Path) -> dict[str, str]:
    if not path.is_file():
        return {}
    source = DotEnvSettingsSource(Settings, env_file=path, env_file_encoding="utf-8", case_sensitive=True)
    return _ours(source.env_vars)


def _key(name: str) -> str:
    return PREFIX + name.upper()


def _nearest(name: str) -> str:
    near = get_close_matches(name, Settings.model_fields, n=1, cutoff=0.5)
    if near:
        return f"Did you mean {_key(near[0])}?"
    return f"There are: {', '.join(_key(each) for each in Settings.model_fields)}."
