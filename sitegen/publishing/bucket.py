"""A bucket of an object store that speaks the S3 protocol as a target, through s3fs.

Each object is replaced in one step by the store itself. Text is stored compressed, with the
header that says so; a store gives the same bytes to everybody who asks.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from sitegen.destinations import BucketTarget
from sitegen.pages.page import check_address
from sitegen.publishing.headers import Headers
from sitegen.publishing.store import CHUNK, Body, Store, StoredFile
from sitegen.publishing.target_errors import (
    AGAIN,
    AccessRefused,
    CutOff,
    Missing,
    MissingExtra,
    NotFound,
    TargetError,
    explain,
    full,
)

_PIECE = 8 * CHUNK
"""Bytes of one request; larger files are sent in several."""
_DEADLINE_S = 180
"""Longest time for one call, whatever the libraries below try again: a request may wait for 30 s, and is
made three times."""
_SLOWEST = 16 * 1024
"""Bytes a second of the slowest line on which a large file is still waited for."""
_FULL = ("QuotaExceeded", "XMinioStorageFull", "InsufficientStorage", "507")
_CLOCK = ("RequestTimeTooSkewed", "RequestExpired")
_REFUSED = ("AccessDenied", "InvalidAccessKeyId", "SignatureDoesNotMatch", "ExpiredToken", "403")
_CREDENTIALS = (
    "set AWS_ACCESS_KEY_ID and AWS_SECRET_ACCESS_KEY in the environment, "
    "or use a profile of your own configuration"
)


class BucketStore(Store):
    """Objects below a prefix of a bucket."""

    concurrency = 8  # enough to hide the delay of each request (our choice)
    keeps_headers = True

    def __init__(self, target: BucketTarget) -> None:
        self.target = target
        self.compress = target.compress
        self.where = f"the bucket {target.bucket}" + (f" ({target.prefix}/)" if target.prefix else "")
        self._top = f"{target.bucket}/{target.prefix}/" if target.prefix else f"{target.bucket}/"
        self._files: Any = None
        self._is_connected = False

    def open(self) -> None:
        try:
            import s3fs
        except ImportError:
            raise MissingExtra("s3fs", "publish-s3") from None
        region = {"region_name": self.target.region} if self.target.region else {}
        with self._trouble():
            self._files = s3fs.S3FileSystem(
                endpoint_url=self.target.endpoint,
                profile=self.target.profile,
                client_kwargs=region,
                # Files are read back and compared; older stores refuse the newer checksums.
                # Seconds after which a try has failed: three of them come before anybody gives up waiting.
                config_kwargs={
                    "connect_timeout": 15,
                    "read_timeout": 30,
                    "retries": {"max_attempts": 1},  # s3fs tries again by itself
                    "request_checksum_calculation": "when_required",
                    "response_checksum_validation": "when_required",
                },
                use_listings_cache=False,
                skip_instance_cache=True,
            )
            self._files.retries = 3
            # A listing, for the answer to HEAD would not say what is wrong.
            self._call("call_s3", "list_objects_v2", Bucket=self.target.bucket, MaxKeys=1)
        self._is_connected = True

    def close(self) -> None:
        if self._is_connected:  # or the library would connect to have something to close
            self._files.close_session(self._files.loop, self._files.s3)
        self._files, self._is_connected = None, False

    def _call(self, method: str, *arguments: Any, size: int = 0, **named: Any) -> Any:
        """One call of the library; ``size`` bytes take their time. Raises TimeoutError past the deadline."""
        return getattr(self._files, method)(*arguments, timeout=_DEADLINE_S + size / _SLOWEST, **named)

    def list(self, below: str = "") -> dict[str, StoredFile]:
        with self._trouble():
            try:
                found = self._call("find", self._top + below, detail=True)
            except FileNotFoundError:
                return {}
            return {
                path.removeprefix(self._top): _found(info)
                for path, info in found.items()
                if path.startswith(self._top + below) and not path.endswith("/")
            }

    def look(self, address: str) -> StoredFile | None:
        with self._trouble():
            try:
                return _found(self._call("info", self._path(address), refresh=True))
            except FileNotFoundError:
                return None

    def chunks(self, address: str) -> Iterator[bytes]:
        bucket, key, _ = self._files.split_path(self._path(address))
        with self._trouble():
            try:
                body = self._call("call_s3", "get_object", Bucket=bucket, Key=key)["Body"]
            except FileNotFoundError:
                raise Missing from None
            try:
                while piece := self._wait(body.read, CHUNK):
                    yield piece
            finally:
                body.close()

    def _wait(self, call: Callable[..., Any], *arguments: Any) -> Any:
        """The result of one of the library's coroutines."""
        from fsspec.asyn import sync

        return sync(self._files.loop, call, *arguments, timeout=_DEADLINE_S)

    def write(self, address: str, body: Body, headers: Headers) -> None:
        fields = {"ContentType": headers.content_type, "CacheControl": headers.cache_control}
        if headers.content_encoding:
            fields["ContentEncoding"] = headers.content_encoding
        with self._trouble():
            if isinstance(body, bytes):
                self._call("pipe_file", self._path(address), body, size=len(body), **fields)
            else:
                path, size = self._path(address), body.stat().st_size
                self._call("put_file", str(body), path, size=size, chunksize=_PIECE, **fields)

    def create(self, address: str, data: bytes) -> bool:
        with self._trouble():
            try:
                self._call("pipe_file", self._path(address), data, mode="create", CacheControl="no-store")
            except FileExistsError:
                return False
            except OSError as error:
                if _code(error) in ("PreconditionFailed", "ConditionalRequestConflict", "412", "409"):
                    return False
                if _code(error) in ("NotImplemented", "501"):  # the lease is read back after all
                    self._call("pipe_file", self._path(address), data)
                    return True
                raise
            return True

    def copy(self, source: str, address: str) -> None:
        with self._trouble():
            try:
                bucket, key, _ = self._files.split_path(self._path(address))
                from_there = {"Bucket": bucket, "Key": self._files.split_path(self._path(source))[1]}
                self._call("call_s3", "copy_object", Bucket=bucket, Key=key, CopySource=from_there)
            except FileNotFoundError:
                raise Missing from None

    def remove(self, address: str) -> None:
        with self._trouble():
            try:
                self._call("rm_file", self._path(address))
            except FileNotFoundError:
                pass

    def _path(self, address: str) -> str:
        return self._top + check_address(address)

    @contextmanager
    def _trouble(self) -> Iterator[None]:
        """Errors of the library and of the store in a trainer's words."""
        from aiohttp import ClientError  # of the client below
        from botocore.exceptions import BotoCoreError, NoCredentialsError, ProfileNotFound

        try:
            yield
        except (NoCredentialsError, ProfileNotFound) as error:
            raise AccessRefused(
                f"there are no credentials for {self.where} ({error})", _CREDENTIALS
            ) from error
        except FileNotFoundError as error:
            message = f"there is no bucket {self.target.bucket}"
            raise NotFound(message, "create it, or correct bucket: and endpoint: in series.yaml") from error
        except OSError as error:
            raise self._explained(error) from error
        except (BotoCoreError, ClientError) as error:
            reason = str(error) or "no answer"
            message = f"the connection to {self.where} broke ({reason})"
            raise CutOff(message, f"check the network and endpoint:, then {AGAIN}") from error

    def _explained(self, error: OSError) -> TargetError:
        code = _code(error)
        if code in _CLOCK:
            message = f"{self.where} refuses requests because this computer's clock is wrong"
            return AccessRefused(message, f"set the clock (date, time and time zone), then {AGAIN}")
        if code in _FULL:
            return full(self.where, code)
        if code in _REFUSED or isinstance(error, PermissionError):
            return AccessRefused(f"{self.where} does not let us in ({code or error})", _CREDENTIALS)
        return explain(error, self.where)


def _code(error: BaseException) -> str:
    """The store's own error code, such as ``AccessDenied``; empty where it gave none."""
    response = getattr(error.__cause__, "response", None) or {}
    return str(response.get("Error", {}).get("Code", ""))


def _found(info: dict[str, Any]) -> StoredFile:
    return StoredFile(int(info["size"]), str(info.get("ETag", "")).strip('"'))
