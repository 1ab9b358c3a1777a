"""Kinds of quantity: the SI unit inside, the unit of the shop outside, and the words people write for them.

Factors are not here: `toptank.units.quantity` takes them from SciPy when the first figure is converted.
"""

from dataclasses import dataclass
from typing import TypeAlias

Words: TypeAlias = tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Dimension:
    """A kind of quantity.

    Parameters
    ----------
    name : what it is called in a message, e.g. "temperature"
    si : unit inside, e.g. "K"
    us : unit of a bare number in a US shop, e.g. "°F"
    metric : unit of a bare number in a metric shop, e.g. "°C"
    words : every unit that is understood, each with the other spellings that people use
    """

    name: str
    si: str
    us: str
    metric: str
    words: Words = ()


_METRE = ("m", ("metre", "metres", "meter", "meters"))
_FOOT = ("ft", ("'", "foot", "feet"))
_KILOMETRE = ("km", ("kilometre", "kilometres", "kilometer", "kilometers"))
_MILE = ("mi", ("mile", "miles"))
_KELVIN = ("K", ("kelvin", "deg K"))
_FAHRENHEIT = ("°F", ("F", "degF", "deg F", "degree F", "degrees F", "fahrenheit", "degrees fahrenheit"))
_CELSIUS = ("°C", ("C", "degC", "deg C", "degree C", "degrees C", "celsius", "centigrade", "degrees celsius"))
_PASCAL = ("Pa", ("pascal",))
_MILLIBAR = ("mbar", ("hPa", "millibar"))
_IN_HG = ("inHg", ("in Hg", '"Hg'))
_IN_WATER = ("inH2O", ("in H2O", '"H2O', "in w.g.", "in wg", "in wc", "inwc"))
_METRE_A_SECOND = ("m/s", ("mps", "m per s", "meters/second", "metres/second"))
_FOOT_A_MINUTE = ("ft/min", ("fpm", "feet/min", "ft per min"))
_CUBIC_METRE_A_SECOND = ("m3/s", ())
_CUBIC_METRE_AN_HOUR = ("m3/h", ("m3/hr", "cmh", "cu m/h"))
_LITRE_A_SECOND = ("L/s", ("lps", "litre/s", "liter/s"))
_WATT = ("W", ("watt", "watts"))
_KILOWATT = ("kW", ("kilowatt", "kilowatts"))
_HORSEPOWER = ("hp", ("bhp", "horsepower", "horse power"))
_BTU_A_MINUTE = ("Btu/min", ("Btu per min",))
_BTU_AN_HOUR = ("Btu/h", ("Btu/hr", "Btuh", "Btu per hour"))
_PERCENT = ("%", ("percent", "per cent", "pct"))

LENGTH = Dimension(
    "length",
    "m",
    "in",
    "mm",
    (
        ("in", ('"', "inch", "inches")),
        ("mm", ("millimetre", "millimetres", "millimeter", "millimeters")),
        ("cm", ("centimetre", "centimetres", "centimeter", "centimeters")),
        _METRE,
        _FOOT,
        ("thou", ("mil", "mils")),
    ),
)
ALTITUDE = Dimension("altitude", "m", "ft", "m", (_FOOT, _METRE, _KILOMETRE, _MILE))
DISTANCE = Dimension(
    "distance",
    "m",
    "mi",
    "km",
    (
        _MILE,
        _KILOMETRE,
        _METRE,
        _FOOT,
        ("yd", ("yard", "yards")),
    ),
)
AREA = Dimension(
    "area",
    "m2",
    "ft2",
    "m2",
    (
        ("ft2", ("sq ft", "square feet", "square foot", "ft^2")),
        ("m2", ("sq m", "square metres", "square meters", "m^2")),
        ("in2", ("sq in", "square inches", "square inch", "in^2")),
        ("cm2", ("sq cm", "cm^2")),
        ("mm2", ("sq mm", "mm^2")),
    ),
)
_VOLUMES: Words = (
    ("qt", ("quart", "quarts", "US qt")),
    ("L", ("litre", "litres", "liter", "liters", "ltr")),
    ("gal", ("gallon", "gallons", "US gal", "US gallon", "US gallons")),
    ("pt", ("pint", "pints", "US pt")),
    ("fl oz", ("US fl oz", "fluid ounces")),
    ("mL", ("millilitre", "millilitres", "milliliter", "milliliters")),
    ("cc", ("cm3", "cm^3", "ccm", "cu cm")),
    ("in3", ("cu in", "cuin", "ci", "cid", "cubic inches", "cubic inch", "in^3")),
    ("imp gal", ("imperial gallon", "imperial gallons", "UK gal")),
    ("imp qt", ("imperial quart", "imperial quarts", "UK qt")),
    ("imp pt", ("imperial pint", "imperial pints", "UK pt")),
    ("m3", ("cu m", "m^3")),
)
VOLUME = Dimension("volume", "m3", "qt", "L", _VOLUMES)
DISPLACEMENT = Dimension("swept volume", "m3", "in3", "L", _VOLUMES)
MASS = Dimension(
    "mass",
    "kg",
    "lb",
    "kg",
    (
        ("lb", ("lbs", "pound", "pounds", "lbm")),
        ("kg", ("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")),
        ("t", ("tonne", "tonnes", "metric ton", "metric tons")),
        ("short ton", ("short tons", "US ton", "US tons")),
        ("cwt", ()),
        ("oz", ("ounce", "ounces")),
        ("g", ("gram", "grams", "gramme", "grammes")),
    ),
)
TEMPERATURE = Dimension("temperature", "K", "°F", "°C", (_FAHRENHEIT, _CELSIUS, _KELVIN))
TEMPERATURE_RISE = Dimension(
    "temperature difference",
    "K",
    "°F",
    "°C",
    ((_FAHRENHEIT[0], (*_FAHRENHEIT[1], "F°")), (_CELSIUS[0], (*_CELSIUS[1], "C°")), _KELVIN),
)
PRESSURE = Dimension(
    "pressure",
    "Pa",
    "psi",
    "kPa",
    (
        ("psi", ("lb", "lbs", "psig", "lb/in2", "lbf/in2", "lb/sq in", "pound", "pounds")),
        ("kPa", ()),
        ("bar", ("barg",)),
        _MILLIBAR,
        ("kg/cm2", ("kgf/cm2", "kp/cm2")),
        ("atm", ()),
        _IN_HG,
        _IN_WATER,
        ("MPa", ()),
        _PASCAL,
    ),
)
AIR_PRESSURE = Dimension(
    "air pressure",
    "Pa",
    "inH2O",
    "Pa",
    (_IN_WATER, _PASCAL, _MILLIBAR, ("mmH2O", ("mm H2O",)), ("kPa", ()), _IN_HG, ("psi", ())),
)
SPEED = Dimension(
    "speed",
    "m/s",
    "mph",
    "km/h",
    (
        ("mph", ("mi/h", "miles/h", "miles per hour")),
        ("km/h", ("kph", "kmh", "km/hr", "kmph")),
        _METRE_A_SECOND,
        _FOOT_A_MINUTE,
    ),
)
ROTATION = Dimension(
    "speed of rotation", "1/s", "rpm", "rpm", (("rpm", ("r/min", "rev/min", "1/min")), ("1/s", ("Hz", "rev/s")))
)
POWER = Dimension(
    "power",
    "W",
    "hp",
    "kW",
    (_HORSEPOWER, _KILOWATT, _WATT, ("PS", ("metric hp", "cv")), _BTU_A_MINUTE, _BTU_AN_HOUR),
)
HEAT = Dimension("heat flow", "W", "kW", "kW", (_KILOWATT, _WATT, _BTU_A_MINUTE, _BTU_AN_HOUR, _HORSEPOWER))
FLOW = Dimension(
    "flow of liquid",
    "m3/s",
    "gpm",
    "L/min",
    (
        ("gpm", ("US gpm", "gal/min", "US gal/min")),
        ("L/min", ("lpm", "litre/min", "liter/min", "litres/min", "liters/min")),
        _LITRE_A_SECOND,
        _CUBIC_METRE_AN_HOUR,
        ("imp gpm", ("imp gal/min", "igpm")),
        _CUBIC_METRE_A_SECOND,
    ),
)
AIR_FLOW = Dimension(
    "flow of air",
    "m3/s",
    "cfm",
    "m3/h",
    (("cfm", ("ft3/min", "cu ft/min")), _CUBIC_METRE_AN_HOUR, _LITRE_A_SECOND, _CUBIC_METRE_A_SECOND),
)
AIR_SPEED = Dimension(
    "air speed",
    "m/s",
    "ft/min",
    "m/s",
    (_FOOT_A_MINUTE, _METRE_A_SECOND, ("mph", ()), ("km/h", ("kph", "kmh")), ("ft/s", ("fps",))),
)
TIME = Dimension(
    "time",
    "s",
    "s",
    "s",
    (
        ("s", ("sec", "secs", "second", "seconds")),
        ("min", ("mins", "minute", "minutes")),
        ("h", ("hr", "hrs", "hour", "hours")),
    ),
)
DURATION = Dimension("duration", "s", "min", "min", TIME.words)
STEADY = 86_400.0
"""A duration from here on is written and read as "steady" [s]."""

HEAVINESS = Dimension("mass over swept volume", "kg/m3", "kg/L", "kg/L", (("kg/L", ("kg/l",)), ("kg/m3", ("kg/m^3",))))
FRACTION = Dimension("share", "1", "%", "%", (_PERCENT,))
GRADE = Dimension("grade", "1", "%", "%", (_PERCENT,))
COUNT = Dimension("count", "1", "1", "1")
NUMBER = Dimension("plain number", "1", "1", "1")
ANGLE = Dimension("angle", "rad", "deg", "deg", (("deg", ("°", "degree", "degrees")), ("rad", ("radian", "radians"))))
FIN_DENSITY = Dimension(
    "fin density",
    "1/m",
    "fpi",
    "fins/dm",
    (
        ("fpi", ("fins/in", "fins/inch", "fins per inch", "1/in")),
        ("fins/dm", ("fins per dm", "1/dm")),
        ("fins/cm", ("1/cm",)),
        ("1/m", ("fins/m",)),
    ),
)
VOLTAGE = Dimension("voltage", "V", "V", "V", (("V", ("volt", "volts")), ("mV", ("millivolt", "millivolts"))))
CURRENT = Dimension("current", "A", "A", "A", (("A", ("amp", "amps", "ampere", "amperes")),))
CONDUCTANCE = Dimension("conductance", "W/K", "W/K", "W/K", (("W/K", ("W/°C",)), ("kW/K", ("kW/°C",))))
FOULING = Dimension("fouling resistance", "m2 K/W", "m2 K/W", "m2 K/W", (("m2 K/W", ("m2K/W", "K m2/W")),))
CONDUCTIVITY = Dimension(
    "conductivity", "W/(m K)", "W/(m K)", "W/(m K)", (("W/(m K)", ("W/m K", "W/mK", "W/m/K", "W/(m·K)")),)
)
TORQUE = Dimension(
    "torque",
    "N m",
    "lbf ft",
    "N m",
    (("lbf ft", ("lb ft", "lb-ft", "ft lb", "ft-lb", "ft lbf")), ("N m", ("Nm", "N·m"))),
)
CHOICE = Dimension("choice", "", "", "")
YES_NO = Dimension("yes or no", "", "", "")
