"""Whom to trust on the web."""

from __future__ import annotations

import ssl


def trusting(authorities: str | None = None) -> ssl.SSLContext:
    """A context that trusts what this system trusts and what certifi's list has; a container often has only the latter.

    With ``authorities``, the path of a file of certificates, those alone. Checks names and certificates.
    """
    import certifi

    context = ssl.create_default_context(cafile=authorities)
    if authorities is None:
        context.load_verify_locations(certifi.where())
    return context
