"""Due items as JSON."""

from __future__ import annotations

import datetime
import json
from collections.abc import Sequence

from fieldnotes.records import Due


def morning_json(items: Sequence[Due], day: datetime.date) -> str:
    """`{"day", "items": […]}`, indented by two, non-ASCII as it is, ending in a line break."""
    body = {"day": day.isoformat(), "items": [item.model_dump(mode="json") for item in items]}
    return json.dumps(body, ensure_ascii=False, indent=2) + "\n"
