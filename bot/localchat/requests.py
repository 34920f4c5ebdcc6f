"""Reads calls from HTTP requests: in the path's query, in a form, in a form with files, or as JSON."""

import json
from typing import Any

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request

from bot.localchat.answers import UploadedFile, bad_request

LONGEST_FIELD = 2**22

Given = dict[str, Any]
Files = dict[str, UploadedFile]


async def call_of(request: Request) -> tuple[Given, Files]:
    """Return the parameters and files of a call.

    Raises:
        Refused: The body cannot be read.
    """
    params: Given = dict(request.query_params)
    if request.headers.get("content-type", "").startswith("application/json"):
        return params | await _object(request), {}
    files: Files = {}
    try:
        form = await request.form(max_part_size=LONGEST_FIELD)
    except HTTPException as error:
        raise bad_request("can't parse the form") from error
    for name, value in form.multi_items():
        if isinstance(value, UploadFile):
            files[name] = UploadedFile(value.filename or name, await value.read())
        else:
            params[name] = value
    await form.close()
    return params, files


async def _object(request: Request) -> Given:
    try:
        read = json.loads(await request.body())
    except ValueError as error:
        raise bad_request("can't parse request JSON object") from error
    if not isinstance(read, dict):
        raise bad_request("request must be a JSON object")
    return read


def chat_of(params: Given) -> int | None:
    """Return the chat that a call names; None when it names none that there could be."""
    try:
        return int(params["chat_id"])
    except (KeyError, TypeError, ValueError):
        return None
