"""Every published source that the rules compute with, by the key that docstrings, tests and reasons cite."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from core.value import Value


class Mark(StrEnum):
    """How a source is known to us."""

    TEXT = "read in the text"
    ABSTRACT = "read in abstract"
    SECONDARY = "secondary"
    MEMORY = "from memory"


class Source(Value):
    """A published source.

    Attributes:
        key: As cited.
        authors: Who wrote it.
        year: Of publication.
        title: Title, or what it is where the title was not seen.
        where: Journal, volume and pages, book or institution.
        mark: How it is known to us.
    """

    key: str
    authors: str
    year: int
    title: str
    where: str
    mark: Mark


_ALL = (
    Source(
        key="ACSM2009",
        authors="Ratamess and others",
        year=2009,
        title="Progression models in resistance training for healthy adults",
        where="Medicine and Science in Sports and Exercise 41(3):687-708; replaced in 2026",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="ACSM2026",
        authors="American College of Sports Medicine",
        year=2026,
        title="Resistance training prescription for muscle function, hypertrophy, and physical performance",
        where="Medicine and Science in Sports and Exercise, April 2026",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="NSCA",
        authors="Haff, Triplett (editors)",
        year=2016,
        title="Essentials of Strength Training and Conditioning, 4th edition",
        where="chapter on loads: repetition maximum table, two-for-two rule, load increases",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Epley1985",
        authors="Epley",
        year=1985,
        title="Poundage chart",
        where="Boyd Epley Workout",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Brzycki1993",
        authors="Brzycki",
        year=1993,
        title="Strength testing: predicting a one-rep max from reps to fatigue",
        where="Journal of Physical Education, Recreation and Dance 64(1):88-90",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Lombardi1989",
        authors="Lombardi",
        year=1989,
        title="Beginning weight training",
        where="book, page not seen",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Mayhew1992",
        authors="Mayhew and others",
        year=1992,
        title="Relative muscular endurance as a predictor of the bench press maximum",
        where="Journal of Applied Sport Science Research 6:200-206",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="OConner1989",
        authors="O'Conner, Simmons, O'Shea",
        year=1989,
        title="Weight training today",
        where="book, page not seen",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Wathan1994",
        authors="Wathan",
        year=1994,
        title="Load assignment",
        where="Essentials of Strength Training and Conditioning, 1st edition, chapter",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Lander1985",
        authors="Lander",
        year=1985,
        title="Maximum based on reps",
        where="NSCA Journal 6:60-61",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="NSCAChart",
        authors="National Strength and Conditioning Association",
        year=2012,
        title="Training load chart",
        where="one page; the year is from memory",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Zourdos2016",
        authors="Zourdos and others",
        year=2016,
        title="Resistance training-specific RPE scale measuring repetitions in reserve",
        where="Journal of Strength and Conditioning Research 30(1):267-275",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Helms2016",
        authors="Helms, Cronin, Storey, Zourdos",
        year=2016,
        title="Rating of perceived exertion by repetitions in reserve",
        where="Strength and Conditioning Journal 38(4):42-49",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Halperin2022",
        authors="Halperin and others",
        year=2022,
        title="Accuracy in predicting repetitions to task failure",
        where="Sports Medicine 52:377-390",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Hackett2017",
        authors="Hackett and others",
        year=2017,
        title="Accuracy of estimated repetitions to failure in the bench press and leg press",
        where="Journal of Strength and Conditioning Research 31(8):2162-2168; title from memory",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Zourdos2021",
        authors="Zourdos and others",
        year=2021,
        title="Proximity to failure and total repetitions, and how well reps left are judged",
        where="Journal of Strength and Conditioning Research 35(2S):S158-S165; title and last page from memory",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Reynolds2006",
        authors="Reynolds, Gordon, Robergs",
        year=2006,
        title="Prediction of one repetition maximum from several repetition tests",
        where="Journal of Strength and Conditioning Research 20(3):584-592",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Grgic2020",
        authors="Grgic and others",
        year=2020,
        title="Test-retest reliability of the one-repetition maximum",
        where="Sports Medicine - Open 6:31",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Plotkin2022",
        authors="Plotkin and others",
        year=2022,
        title="Progressive overload without progressing load?",
        where="PeerJ 10:e14142",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Knight1979",
        authors="Knight",
        year=1979,
        title="Daily adjustable progressive resistive exercise; what it is, the title was not seen",
        where="American Journal of Sports Medicine 7:336-337",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Knight1985",
        authors="Knight",
        year=1985,
        title="Daily adjustable progressive resistive exercise; what it is, the title was not seen",
        where="Medicine and Science in Sports and Exercise 17:646-650",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Mann2010",
        authors="Mann, Thyfault, Ivey, Sayers",
        year=2010,
        title="Autoregulatory progressive resistance exercise in college players; what it is, the title was not seen",
        where="Journal of Strength and Conditioning Research 24(7):1718-1723",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Stone1981",
        authors="Stone, O'Bryant, Garhammer",
        year=1981,
        title="A model of strength training in phases of reps",
        where="journal not seen",
        mark=Mark.MEMORY,
    ),
    Source(
        key="Pound1959",
        authors="National standards laboratories of six countries",
        year=1959,
        title="Agreement on the yard and the pound",
        where="in force from 1 July 1959",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="IWF",
        authors="International Weightlifting Federation",
        year=2020,
        title="Technical rules: bars and discs",
        where="federation rules",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="IPF",
        authors="International Powerlifting Federation",
        year=2020,
        title="Technical rules: bars, discs and collars",
        where="federation rules",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Silbernagel2007",
        authors="Silbernagel and others",
        year=2007,
        title="Continued sports activity, using a pain-monitoring model",
        where="American Journal of Sports Medicine 35:897-906",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Boonstra2016",
        authors="Boonstra and others",
        year=2016,
        title="Cut-off points for mild, moderate, and severe pain on a rating scale",
        where="Frontiers in Psychology 7:1466",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="CSCCa2019",
        authors="Caterisano and others",
        year=2019,
        title="Joint consensus guidelines for a safe return to training after inactivity",
        where="Strength and Conditioning Journal 41(3):1-23",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Mujika2001",
        authors="Mujika, Padilla",
        year=2001,
        title="Muscular characteristics of detraining in humans",
        where="Medicine and Science in Sports and Exercise 33:1297-1303",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Bosquet2013",
        authors="Bosquet and others",
        year=2013,
        title="Effect of training cessation on muscular performance",
        where="Scandinavian Journal of Medicine and Science in Sports 23:e140-e149",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Rogerson2024",
        authors="Rogerson and others",
        year=2024,
        title="Deloading practices in strength and physique sports",
        where="Sports Medicine - Open 10:26",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Pelland2024",
        authors="Pelland and others",
        year=2024,
        title="Resistance training dose-response: sets a week, direct and indirect, and frequency",
        where="preprint of 67 studies",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Schoenfeld2017",
        authors="Schoenfeld, Ogborn, Krieger",
        year=2017,
        title="Dose-response relationship between weekly resistance training volume and increases in muscle mass",
        where="Journal of Sports Sciences 35(11):1073-1082",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Bell2023",
        authors="Bell and others",
        year=2023,
        title="Integrating deloading into strength and physique sports training",
        where="Sports Medicine - Open 9:87",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Riebe2015",
        authors="Riebe and others",
        year=2015,
        title="Updating ACSM's recommendations for preparticipation health screening",
        where="Medicine and Science in Sports and Exercise 47:2473-2479",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="PEP495",
        authors="Belopolsky, Peters",
        year=2015,
        title="Local time disambiguation",
        where="Python Enhancement Proposal 495",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="TZDB",
        authors="Internet Assigned Numbers Authority",
        year=2026,
        title="Time zone database",
        where="release 2026",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="OpenStaxAP2e",
        authors="Betts and others",
        year=2022,
        title="Anatomy and Physiology, 2nd edition",
        where="OpenStax, Rice University, chapter 11: sections 11.3 to 11.6",
        mark=Mark.TEXT,
    ),
    Source(
        key="Mier2014",
        authors="Mier and others",
        year=2014,
        title="Percentage of body weight supported during push-ups, by method and gender",
        where="International Journal of Exercise Science 7(2):161-168",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Ebben2011",
        authors="Ebben and others",
        year=2011,
        title="Kinetic analysis of several variations of push-ups",
        where="Journal of Strength and Conditioning Research 25(10):2891-2894",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Foster1998",
        authors="Foster",
        year=1998,
        title="Monitoring training in athletes with reference to overtraining syndrome",
        where="Medicine and Science in Sports and Exercise 30(7):1164-1168",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Foster2001",
        authors="Foster and others",
        year=2001,
        title="A new approach to monitoring exercise training",
        where="Journal of Strength and Conditioning Research 15(1):109-115",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Williams2017",
        authors="Williams, West, Cross, Stokes",
        year=2017,
        title="Better way to determine the acute:chronic workload ratio?",
        where="British Journal of Sports Medicine 51(3):209-210",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Impellizzeri2021",
        authors="Impellizzeri and others",
        year=2021,
        title="Time to dismiss a ratio of recent to usual load, and what lies under it",
        where="Sports Medicine, accepted 2020",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="NIST",
        authors="National Institute of Standards and Technology, SEMATECH",
        year=2012,
        title="e-Handbook of Statistical Methods",
        where="section 6.3.2.4, table of the worked example",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Theil1950",
        authors="Theil",
        year=1950,
        title="A rank-invariant method of linear and polynomial regression analysis",
        where="Proceedings of the Royal Netherlands Academy of Sciences 53",
        mark=Mark.MEMORY,
    ),
    Source(
        key="Sen1968",
        authors="Sen",
        year=1968,
        title="Estimates of the regression coefficient based on Kendall's tau",
        where="Journal of the American Statistical Association 63:1379-1389",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Weir2005",
        authors="Weir",
        year=2005,
        title="Quantifying test-retest reliability with the intraclass correlation coefficient and the SEM",
        where="Journal of Strength and Conditioning Research 19(1):231-240",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="Wilson1927",
        authors="Wilson",
        year=1927,
        title="Probable inference, the law of succession, and statistical inference",
        where="Journal of the American Statistical Association 22:209-212",
        mark=Mark.SECONDARY,
    ),
    Source(
        key="Newcombe1998",
        authors="Newcombe",
        year=1998,
        title="Two-sided confidence intervals for the single proportion: comparison of seven methods",
        where="Statistics in Medicine 17:857-872",
        mark=Mark.ABSTRACT,
    ),
    Source(
        key="BMJMil2020",
        authors="Authors not seen",
        year=2020,
        title="Editorial with examples of training variables and monitoring equations",
        where="BMJ Military Health 168(4):314-319, table 1",
        mark=Mark.TEXT,
    ),
    Source(
        key="Linnerud",
        authors="Linnerud, North Carolina State University",
        year=1970,
        title="Three exercises and three measures of the body of twenty men",
        where="data set of scikit-learn; the year is from memory",
        mark=Mark.SECONDARY,
    ),
)

SOURCES: Mapping[str, Source] = MappingProxyType({source.key: source for source in _ALL})
"""Every source by its key."""
