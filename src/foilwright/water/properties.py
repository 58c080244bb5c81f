"""What the boat sails in: fresh, brackish or sea water, the air over it, and gravity.

Set-up code, called once per day sheet, not inside a solve. Everything at atmospheric pressure.
Temperatures are in degrees Celsius because that is how a thermometer on a jetty reads.
"""

from math import exp, radians, sin, sqrt
from typing import NamedTuple

STANDARD_GRAVITY = 9.80665
"""[m/s2]"""

STANDARD_PRESSURE = 101325.0
"""[Pa]"""

_ZERO_CELSIUS = 273.15

_FRESH_VOLUME = (
    -9.63108119393062, 63.5113936641785, -194.618310617595, 397.968445406972,
    -672.50778314507, 1455.0364540468, -270.983805184062, 100015.695367145,
)  # fmt: skip
"""Specific volume of pure water at one atmosphere [1e-8 m3/kg] over powers of t / 40, highest first."""


class Water(NamedTuple):
    """Water and air as the physics needs them, SI."""

    density: float
    """of the water [kg/m3]"""
    viscosity: float
    """kinematic, of the water [m2/s]"""
    vapour_pressure: float
    """of the water [Pa]; cavitation starts near it"""
    air_density: float
    """[kg/m3]"""
    air_viscosity: float
    """kinematic, of the air [m2/s]"""
    gravity: float
    """[m/s2]"""
    air_pressure: float
    """at the water surface [Pa]"""


def water_at(
    temperature_c: float = 15.0,
    salinity_g_kg: float = 0.0,
    air_temperature_c: float = 15.0,
    latitude_deg: float | None = None,
    altitude_m: float = 0.0,
) -> Water:
    """Water, air and gravity of a place.

    temperature_c      water, -2 to 40 degrees C
    salinity_g_kg      absolute salinity, 0 (fresh) to 42; 35.16504 is standard sea water. A reading on the
                       practical scale S times 35.16504/35 gives it
    air_temperature_c  -40 to 50 degrees C; dry air
    latitude_deg       of the place, either hemisphere; None: standard gravity
    altitude_m         of the water surface, -500 to 11000 m; lowers the air pressure only

    Raises ValueError outside these ranges.
    """
    _check("water temperature [deg C]", temperature_c, -2.0, 40.0)
    _check("salinity [g/kg]", salinity_g_kg, 0.0, 42.0)
    _check("air temperature [deg C]", air_temperature_c, -40.0, 50.0)
    _check("altitude [m]", altitude_m, -500.0, 11000.0)
    density = water_density(temperature_c, salinity_g_kg)
    pressure = air_pressure_at(altitude_m)
    gravity = STANDARD_GRAVITY if latitude_deg is None else gravity_at(latitude_deg)
    return Water(
        density=density,
        viscosity=water_dynamic_viscosity(temperature_c, salinity_g_kg) / density,
        vapour_pressure=vapour_pressure(temperature_c, salinity_g_kg),
        air_density=air_density(air_temperature_c, pressure),
        air_viscosity=air_dynamic_viscosity(air_temperature_c) / air_density(air_temperature_c, pressure),
        gravity=gravity,
        air_pressure=pressure,
    )


def water_density(temperature_c: float, salinity_g_kg: float) -> float:
    """Density of water at one atmosphere [kg/m3].

    Specific volume is the pressure derivative of the Gibbs function at 101325 Pa: pure water from IAPWS
    SR7-09 (2009), salt from IAPWS R13-08 (2008), together the thermodynamic equation of sea water TEOS-10.
    Here only the terms that survive at one atmosphere. Valid -2 to 40 degrees C, 0 to 42 g/kg; error below
    0.01 kg/m3.
    """
    t = temperature_c / 40.0
    salt = salinity_g_kg / (35.16504 * 40.0 / 35.0)
    root = sqrt(max(salt, 0.0))
    fresh = 0.0
    for coefficient in _FRESH_VOLUME:
        fresh = fresh * t + coefficient
    dissolved = (
        -3310.49154044839
        + root * (199.459603073901 + root * (-54.7919133532887 + root * 36.0284195611086))
        + t * (729.116529735046 + root * (-175.292041186547 - root * 22.6683558512829))
        + t**2 * (-860.764303783977 + root * 383.058066002476)
        + t**3 * (694.244814133268 - root * 460.319931801257)
        + t**4 * (-297.728741987187 + root * 234.565187611355)
    )
    return 1e8 / (fresh + salt * dissolved)


def water_dynamic_viscosity(temperature_c: float, salinity_g_kg: float) -> float:
    """Dynamic viscosity of water at one atmosphere [Pa s].

    Pure water: IAPWS SR6-08 (2011), equation 7, error 1 %. Salt: the factor of Sharqawy, Lienhard & Zubair
    2010 (Desalination and Water Treatment 16:354-380), 0 to 150 g/kg, error 1.5 %.
    """
    t = (temperature_c + _ZERO_CELSIUS) / 300.0
    pure: float = 1e-6 * (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0)
    s = salinity_g_kg * 1e-3
    a = 1.541 + 1.998e-2 * temperature_c - 9.52e-5 * temperature_c**2
    b = 7.974 - 7.561e-2 * temperature_c + 4.724e-4 * temperature_c**2
    return pure * (1.0 + a * s + b * s * s)


def vapour_pressure(temperature_c: float, salinity_g_kg: float) -> float:
    """Saturation vapour pressure of water [Pa].

    Pure water: IAPWS SR1-86 (1992), Wagner & Pruss. Salt lowers it by the mole fraction of water, as given by
    Sharqawy, Lienhard & Zubair 2010. Valid 0 to 40 degrees C here; error 0.1 % fresh, 1 % sea. Cavitation in
    natural water starts somewhat above it, at gas nuclei.
    """
    absolute = temperature_c + _ZERO_CELSIUS
    critical_temperature, critical_pressure = 647.096, 22.064e6
    tau = 1.0 - absolute / critical_temperature
    series = (
        -7.85951783 * tau
        + 1.84408259 * tau**1.5
        - 11.7866497 * tau**3
        + 22.6807411 * tau**3.5
        - 15.9618719 * tau**4
        + 1.80122502 * tau**7.5
    )
    pure = critical_pressure * exp(critical_temperature / absolute * series)
    return pure / (1.0 + 0.57357 * salinity_g_kg / (1000.0 - salinity_g_kg))


def air_density(temperature_c: float, pressure: float) -> float:
    """Density of dry air [kg/m3], ideal gas, R = 287.05287 J/(kg K) (ISO 2533:1975).

    pressure [Pa]. Saturated air is lighter: 0.6 % at 15 degrees C, 1.6 % at 30.
    """
    return pressure / (287.05287 * (temperature_c + _ZERO_CELSIUS))


def air_dynamic_viscosity(temperature_c: float) -> float:
    """Dynamic viscosity of air [Pa s], Sutherland's law with the constants of ISO 2533:1975."""
    absolute = temperature_c + _ZERO_CELSIUS
    viscosity: float = 1.458e-6 * absolute**1.5 / (absolute + 110.4)
    return viscosity


def air_pressure_at(altitude_m: float) -> float:
    """Pressure of the standard atmosphere [Pa] (ISO 2533:1975), -500 to 11000 m. Weather moves it by 3 %."""
    pressure: float = STANDARD_PRESSURE * (1.0 - 0.0065 * altitude_m / 288.15) ** 5.255877
    return pressure


def gravity_at(latitude_deg: float) -> float:
    """Normal gravity at sea level [m/s2], Somigliana's formula with the constants of WGS 84.

    Height above the sea takes off 3.1e-6 a metre, which is left out.
    """
    s2 = sin(radians(latitude_deg)) ** 2
    return 9.7803253359 * (1.0 + 0.00193185265241 * s2) / sqrt(1.0 - 0.00669437999013 * s2)


def _check(what: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise ValueError(f"{what} is {value:g}; the formulas hold from {low:g} to {high:g}")
