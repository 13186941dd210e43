"""Relations across documents, worked out from the claims alone."""

from indexer.library.catalogue import Catalogue


def relate(catalogue: Catalogue) -> None:
    return
