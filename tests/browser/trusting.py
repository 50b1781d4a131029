"""Lets a Chromium of a test trust an authority as a person does: in the store of certificates of its own home folder.

Chromium on Linux reads that store by NSS, whose library comes with it; there is no other way that keeps name constraints,
for what ignores errors of certificates ignores those too. Run in a process of its own: NSS is opened once in a process.
"""

from __future__ import annotations

import ctypes
import subprocess
import sys
from pathlib import Path

TRUSTED_CA, VALID_CA = 0x10, 0x08  # CERTDB_TRUSTED_CA and CERTDB_VALID_CA of NSS, certdb.h


class Trust(ctypes.Structure):
    """CERTCertTrust of NSS: for servers, for mail, for programs."""

    _fields_ = [("ssl", ctypes.c_uint), ("email", ctypes.c_uint), ("objects", ctypes.c_uint)]


def trust(home: Path, authority: bytes) -> None:
    """Put an authority (DER) into the store of a home folder."""
    folder = home / ".pki" / "nssdb"
    folder.mkdir(parents=True)
    command = [sys.executable, __file__, str(folder), authority.hex()]
    subprocess.run(command, check=True, capture_output=True, timeout=60)


def _put(folder: str, authority: bytes) -> None:
    nss, decode = ctypes.CDLL("libnss3.so"), ctypes.CDLL("libsmime3.so").CERT_DecodeCertFromPackage
    slots, bases = nss.PK11_GetInternalKeySlot, nss.CERT_GetDefaultCertDB
    decode.restype = slots.restype = bases.restype = ctypes.c_void_p
    decode.argtypes = [ctypes.c_char_p, ctypes.c_int]
    nss.PK11_InitPin.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_char_p]
    nss.PK11_ImportCert.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_ulong, ctypes.c_char_p, ctypes.c_int]
    nss.CERT_ChangeCertTrust.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.POINTER(Trust)]
    if nss.NSS_InitReadWrite(f"sql:{folder}".encode()):
        raise OSError("the store does not open")
    slot = slots()
    nss.PK11_InitPin(slot, None, b"")
    made = decode(authority, len(authority))
    put = nss.PK11_ImportCert(slot, made, 0, b"home", 0)
    if not made or put or nss.CERT_ChangeCertTrust(bases(), made, ctypes.byref(Trust(TRUSTED_CA | VALID_CA, 0, 0))):
        raise OSError("the store does not take it")
    nss.NSS_Shutdown()


if __name__ == "__main__":
    _put(sys.argv[1], bytes.fromhex(sys.argv[2]))
