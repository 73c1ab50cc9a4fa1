"""The server's own log: one JSON object a line on the standard error, with nothing personal in it."""

import json
import logging
import sys
import traceback
from datetime import UTC, datetime


class JsonLines(logging.Formatter):
    """Time, level, who says it, what; of an exception where it happened and its kind, not its words: they may quote data."""

    def format(self, record: logging.LogRecord) -> str:
        told: dict[str, object] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
            "said": record.getMessage(),
            **getattr(record, "told", {}),
        }
        if record.exc_info and record.exc_info[0] is not None:
            kind, _, trace = record.exc_info
            told["error"] = kind.__name__
            told["at_lines"] = [f"{f.filename}:{f.lineno} {f.name}" for f in traceback.extract_tb(trace)]
        return json.dumps(told, ensure_ascii=False)


def log_to_stderr(level: str) -> None:
    """Set the log up for the whole process."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines())
    logging.basicConfig(level=level.upper(), handlers=[handler], force=True)
    # Their own words name addresses; what matters of a request is in ours.
    for name in ("uvicorn.access", "httpx", "asyncio"):
        logging.getLogger(name).setLevel(logging.WARNING)
