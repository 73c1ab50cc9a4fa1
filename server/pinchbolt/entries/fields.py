"""The types the fields of entries are made of. Numbers are finite because JSON has no others; texts and lists are bounded."""

from typing import Annotated, Any

from msgspec import Meta

# `\Z`, not `$`: the latter would let a line feed through at the end.
UUID = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z"
UUID_7 = r"^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}\Z"
SUBJECT = r"^(?:workshop|(?:bike|event)/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})\Z"
TIME = r"^[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])T(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]\.[0-9]{3}Z\Z"
STAMP = r"^[0-9]{13}-[0-9a-f]{4}-[0-9a-f]{8}\Z"
HASH = r"^[0-9a-f]{64}\Z"

# The largest whole number every JSON reader keeps exactly.
MOST_WHOLE = 2**53 - 1

Uuid = Annotated[str, Meta(pattern=UUID)]
EntryId = Annotated[str, Meta(pattern=UUID_7)]
Subject = Annotated[str, Meta(pattern=SUBJECT)]
Stamp = Annotated[str, Meta(pattern=STAMP)]
Hash = Annotated[str, Meta(pattern=HASH)]
Time = Annotated[str, Meta(pattern=TIME)]
Date = Annotated[str, Meta(pattern=r"^[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])\Z")]

Count = Annotated[int, Meta(ge=0, le=MOST_WHOLE)]
Place = Annotated[int, Meta(ge=1, le=MOST_WHOLE)]
NotNegative = Annotated[float, Meta(ge=0)]

Name = Annotated[str, Meta(min_length=1, max_length=200)]
Unit = Annotated[str, Meta(max_length=20)]
Words = Annotated[str, Meta(max_length=8000)]
Names = Annotated[list[Name], Meta(max_length=200)]

Plain = dict[str, Any]
Markings = Annotated[dict[Name, bool | float | str], Meta(max_length=100)]
