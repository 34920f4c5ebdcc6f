"""Runs migrations on the connection that is handed in; there is no ini file."""

from alembic import context

from bot.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
