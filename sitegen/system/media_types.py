"""Media types of the files of a site, as the IANA registry has them; ``ffmeta`` has none of its own.

Python's own table is another one for each version and reads files of the system, so that two computers would
send the same site with different headers.
"""

_TYPES = {
    "html": "text/html",
    "css": "text/css",
    "js": "text/javascript",
    "txt": "text/plain",
    "ffmeta": "text/plain",
    "vtt": "text/vtt",
    "ics": "text/calendar",
    "json": "application/json",
    "xml": "application/xml",
    "svg": "image/svg+xml",
    "png": "image/png",
    "jpg": "image/jpeg",
    "jpeg": "image/jpeg",
    "gif": "image/gif",
    "webp": "image/webp",
    "avif": "image/avif",
    "webm": "video/webm",
    "mp4": "video/mp4",
    "m4v": "video/mp4",
    "mov": "video/quicktime",
    "ogv": "video/ogg",
    "mp3": "audio/mpeg",
    "m4a": "audio/mp4",
    "ogg": "audio/ogg",
    "opus": "audio/ogg",
    "pdf": "application/pdf",
    "woff2": "font/woff2",
    "webmanifest": "application/manifest+json",
}
UNKNOWN = "application/octet-stream"


def ending_of(name: str) -> str:
    """The ending of a file's name in lower case, without its dot; empty where there is none."""
    return name.rpartition(".")[2].lower() if "." in name else ""


def media_type(name: str) -> str:
    """The media type of a file by its name, with the charset for text."""
    kind = _TYPES.get(ending_of(name), UNKNOWN)
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind
