"""Where a site can be sent: one record for each kind of target that series.yaml may name.

None of them can hold a password or a key: credentials come from the environment or from the
system's own configuration only.
"""

from dataclasses import dataclass

GZIP, BROTLI, PLAIN = "gzip", "brotli", "none"
COMPRESSIONS = (GZIP, BROTLI, PLAIN)


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderTarget:
    """A folder of this computer: a mounted web root, or one that another program syncs."""

    path: str
    """Absolute, starting with ``~``, or below the folder that holds the content folder."""
    at_once: bool = False
    """Put the whole new site in the place of the old one in one step, instead of file by file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SftpTarget:
    """A folder of another computer, over SSH."""

    host: str
    """Its name, or an alias of the SSH configuration."""
    path: str
    """Absolute, or below the home folder there."""
    user: str | None = None
    """None: as the SSH configuration says, or the name on this computer."""
    port: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BucketTarget:
    """A bucket of an object store that speaks the S3 protocol."""

    bucket: str
    prefix: str = ""
    """Folder inside the bucket, without slashes at its ends; empty for the bucket's root."""
    endpoint: str | None = None
    """Where the store answers, for others than the protocol's inventor."""
    region: str | None = None
    profile: str | None = None
    """Name of a profile of the system's own configuration."""
    compress: str = GZIP
    """How text is stored: one of :data:`COMPRESSIONS`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchTarget:
    """A branch of a git repository, for hosts that serve one."""

    repository: str
    """Address or path, or the name of a remote that git knows by itself."""
    branch: str = "site"
    folder: str = ""
    """Folder inside the branch, without slashes at its ends; empty for its top."""


Target = FolderTarget | SftpTarget | BucketTarget | BranchTarget
