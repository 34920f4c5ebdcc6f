"""Column types that keep what the databases would lose."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import JSON, BigInteger, DateTime, Dialect, Integer, Numeric, String
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.types import TypeDecorator, TypeEngine

from core.units import plain

Id = BigInteger().with_variant(Integer(), "sqlite")
"""Row ids and the platform's ids. SQLite counts up by itself only for INTEGER, which is 64 bits there too."""

Json = JSON().with_variant(JSONB(), "postgresql")
"""Treated as immutable: a new value is assigned, never changed in place."""


class UtcDateTime(TypeDecorator[datetime]):
    """An instant: refuses naive values, gives back UTC. SQLite would drop the offset."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Convert to UTC on the way in.

        Raises:
            ValueError: The value is naive.
        """
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a naive datetime is no instant")
        value = value.astimezone(UTC)
        return value.replace(tzinfo=None) if dialect.name == "sqlite" else value

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Attach UTC on the way out."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class ExactDecimal(TypeDecorator[Decimal]):
    """A decimal kept to the digit: canonical text on SQLite, NUMERIC on PostgreSQL. Never summed in SQL."""

    impl = String(40)
    cache_ok = True

    def load_dialect_impl(self, dialect: Dialect) -> TypeEngine[Any]:
        """Choose the column's type."""
        if dialect.name == "postgresql":
            return dialect.type_descriptor(Numeric())
        return dialect.type_descriptor(String(40))

    def process_bind_param(self, value: Decimal | None, dialect: Dialect) -> Any:
        """Write canonical text (or the number itself).

        Raises:
            TypeError: The value is not a Decimal.
            ValueError: The value is not finite.
        """
        if value is None:
            return None
        if not isinstance(value, Decimal):
            raise TypeError("an exact column takes a Decimal")
        if not value.is_finite():
            raise ValueError("an exact column takes a finite number")
        if dialect.name == "postgresql":
            return value
        return plain(value) if value else "0"

    def process_result_value(self, value: Any, dialect: Dialect) -> Decimal | None:
        """Read it back, without trailing zeros on either database."""
        if value is None:
            return None
        number = Decimal(value)
        return Decimal(plain(number)) if number else Decimal(0)
