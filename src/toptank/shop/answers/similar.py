"""The answer to what closed jobs like one turned out to be."""

from toptank.shop.answers.answer import Answer, Number


class SimilarJob(Answer):
    """A closed job that is like another one.

    Parameters
    ----------
    number : of the job
    closed : when it was saved last: UTC, ISO 8601
    causes : what it was, by their ids
    same_vehicle : it is like the same typical vehicle
    same_manner : it ran hot at the same of standing, moving and climbing, and at none of the others
    """

    number: Number
    title: str
    closed: str
    causes: tuple[str, ...]
    same_vehicle: bool
    same_manner: bool


class CauseOfSimilar(Answer):
    """A cause that similar jobs had.

    Parameters
    ----------
    cause : its id
    jobs : their numbers
    """

    cause: str
    jobs: tuple[Number, ...]


class SimilarAnswer(Answer):
    """What closed jobs like one turned out to be; `number` is of that one.

    Parameters
    ----------
    jobs : the most alike first, of equals the newest
    causes : the commonest first
    """

    number: Number
    jobs: tuple[SimilarJob, ...]
    causes: tuple[CauseOfSimilar, ...]
