"""What to mind of things that are bought for an outage."""

from collections.abc import Iterator, Sequence

from optimizer.model.household import FuelOffer
from optimizer.model.plan import Caution
from optimizer.studies.buying.offers import Basket, Offer

STORAGE = Caution(
    "fuel_storage",
    "How much fuel may be kept in a house, and where, is set by the local fire code, the rules of "
    "the building and the maker's instructions. The storage limits here are only what the file "
    "says. Ask the fire service before you store more. Keep fuel outdoors or in a shed, away from "
    "flames and from children, in the container it was sold in.",
)
BOTTLED = Caution(
    "bottled_water",
    "Bottled water: keep it closed, cool and dark, and heed the date on it. Once open, use it up "
    "soon. It still has to be boiled for an infant's bottle.",
)
TREATED = Caution(
    "treated_water",
    "Water treated with a chemical: follow its maker's instructions for the dose and the time it "
    "has to stand; with chlorine that is commonly 30 minutes and longer in cold water (CDC and "
    "WHO, emergency disinfection of drinking water, from memory). Cloudy water has to settle and "
    "be filtered through a cloth first, and may need more. Some germs, such as cryptosporidium, "
    "are not killed by chlorine: boiling kills them. It takes out no fuel, salt or lead.",
)


def minding(offers: Sequence[Offer], basket: Basket) -> tuple[Caution, ...]:
    """Return the cautions of a basket.

    Parameters
    ----------
    offers : sequence of Offer
        What may be bought.
    basket : tuple of int
        How many of each.
    """
    return tuple(_cautions([o for o, n in zip(offers, basket, strict=True) if n]))


def _cautions(bought: Sequence[Offer]) -> Iterator[Caution]:
    if any(isinstance(offer.source, FuelOffer) for offer in bought):
        yield STORAGE
    if any(offer.name == "bottled" for offer in bought):
        yield BOTTLED
    if any(offer.name == "treated" for offer in bought):
        yield TREATED
