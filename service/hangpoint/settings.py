"""Settings of the service, read from the environment: every name begins with HANGPOINT_."""

import re
from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Literal

from pydantic import Field, SecretStr, field_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

MEBIBYTE = 1024 * 1024
_PREFIX = "HANGPOINT_"
_ORIGIN = re.compile(r"https?://(?:[a-z0-9.-]+|\[[0-9a-f:]+\])(?::[0-9]{1,5})?")


class Settings(BaseSettings):
    """What an operator may set. Limits can be lowered, never raised above what is published."""

    model_config = SettingsConfigDict(env_prefix=_PREFIX, frozen=True)

    host: str = Field("127.0.0.1", description="Address to listen on; beyond loopback HANGPOINT_ACCESS is required.")
    port: int = Field(8000, ge=1, le=65535, description="Port to listen on.")
    access: Literal["loopback", "tokens", "proxy"] = Field(
        "loopback",
        description="Who lets callers in: nobody but this machine (loopback), tokens of HANGPOINT_TOKENS, or a proxy"
        " in front that authenticates (proxy).",
    )
    tokens: SecretStr = Field(
        SecretStr(""), description="Bearer tokens that are let in, separated by commas, with access by tokens."
    )
    origins: str = Field(
        "", description="Origins of web pages, separated by commas, whose scripts a browser may let call the service."
    )
    catalogue: Path | None = Field(None, description="File or folder of families used instead of the built-in ones.")
    max_single_bytes: int = Field(256 * 1024, ge=1024, le=256 * 1024, description="Largest body of a single check.")
    max_batch_bytes: int = Field(
        16 * MEBIBYTE, ge=1024, le=16 * MEBIBYTE, description="Largest body of a batch that is answered as a whole."
    )
    max_items: int = Field(10_000, ge=1, le=10_000, description="Most hang points of a batch.")
    max_traces: int = Field(200, ge=0, le=200, description="Most traces of a batch.")
    max_stream_bytes: int = Field(
        128 * MEBIBYTE, ge=1024, le=128 * MEBIBYTE, description="Largest body of a stream of lines answered by lines."
    )
    max_stream_items: int = Field(200_000, ge=1, le=200_000, description="Most hang points of such a stream.")
    max_line_bytes: int = Field(64 * 1024, ge=1024, le=64 * 1024, description="Longest line of NDJSON.")
    body_seconds: float = Field(
        20.0, gt=0, le=600, description="Time within which a body must have arrived, and each part of a stream."
    )
    stream_seconds: float = Field(
        600.0, gt=0, le=3600, description="Time within which a stream of lines must have been read and answered."
    )

    @field_validator("origins")
    @classmethod
    def _are_origins(cls, text: str) -> str:
        for each in _listed(text):
            if not _ORIGIN.fullmatch(each):
                raise ValueError(
                    f"{each!r} is no origin as browsers send it: scheme and host in lower case, and a port that is not"
                    " the usual one, with nothing behind, such as https://forms.example:8443; not all of them by *"
                )
        return text

    @property
    def bearer_tokens(self) -> list[str]:
        """The tokens that are let in."""
        return _listed(self.tokens.get_secret_value())

    @property
    def web_origins(self) -> list[str]:
        """The origins whose pages may call."""
        return _listed(self.origins)


def _listed(text: str) -> list[str]:
    return [each.strip() for each in text.split(",") if each.strip()]


def misspelt(environment: Mapping[str, str]) -> dict[str, str]:
    """Names of an environment that are nearly those of a setting, and which: such a setting would not be heard."""
    known = [f"{_PREFIX}{name}".upper() for name in Settings.model_fields]
    others = (name for name in environment if name.upper().startswith(_PREFIX) and name.upper() not in known)
    near = {name: get_close_matches(name.upper(), known, n=1, cutoff=0.9) for name in others}
    return {name: found[0] for name, found in near.items() if found}


def read_settings() -> Settings:
    """Settings from the environment.

    Raises:
        ValidationError: a value that a setting can't take.
    """
    return Settings.model_validate({})
