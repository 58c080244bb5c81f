"""Water, air and gravity against published tables.

Fresh water: IAPWS-95, evaluated with the public package iapws 1.5.5 at 101325 Pa. Sea water: TEOS-10,
evaluated with gsw 3.6.23 (rho_t_exact at 35.16504 g/kg); viscosity of sea water after Sharqawy, Lienhard &
Zubair 2010, Desalination and Water Treatment 16:354-380. ITTC 7.5-02-01-03 (2008) values as quoted in public
towing-tank data. Normal gravity: WGS 84. Air: ISO 2533:1975.
"""

import pytest

from foilwright.water import properties
from foilwright.water.properties import water_at

# degrees C: fresh density, kinematic viscosity, vapour pressure; the same three of sea water
TABLE = {
    5: (999.967, 1.51822e-6, 872.6, 1027.676, 1.5762e-6, 854.7),
    10: (999.703, 1.30629e-6, 1228.2, 1026.954, 1.3606e-6, 1203.0),
    15: (999.103, 1.13859e-6, 1705.8, 1025.976, 1.1894e-6, 1670.9),
    20: (998.207, 1.00340e-6, 2339.3, 1024.766, 1.0510e-6, 2291.4),
    25: (997.048, 8.9266e-7, 3169.9, 1023.344, 9.3731e-7, 3105.0),
    30: (995.650, 8.0071e-7, 4247.0, 1021.726, 8.4267e-7, None),
}


@pytest.mark.parametrize("celsius", TABLE)
def test_table(celsius):
    """Density to 0.02 kg/m3, viscosity to 0.3 % fresh and 1 % sea, vapour pressure to 0.5 % and 1 %."""
    density, viscosity, vapour, sea_density, sea_viscosity, sea_vapour = TABLE[celsius]
    fresh, sea = water_at(celsius), water_at(celsius, 35.16504)
    assert fresh.density == pytest.approx(density, abs=0.02)
    assert fresh.viscosity == pytest.approx(viscosity, rel=3e-3)
    assert fresh.vapour_pressure == pytest.approx(vapour, rel=5e-3)
    assert sea.density == pytest.approx(sea_density, abs=0.02)
    assert sea.viscosity == pytest.approx(sea_viscosity, rel=0.01)
    if sea_vapour is not None:
        assert sea.vapour_pressure == pytest.approx(sea_vapour, rel=0.01)


@pytest.mark.parametrize(("practical", "density"), [(5, 1002.953), (10, 1006.784), (20, 1014.445)])
def test_brackish(practical, density):
    """gsw 3.6.23 at 15 degrees C, practical salinity times 35.16504/35; to 0.01 kg/m3."""
    assert properties.water_density(15.0, practical * 35.16504 / 35.0) == pytest.approx(density, abs=0.01)


def test_towing_tank_tables():
    """ITTC 7.5-02-01-03. Its sea column sits 0.044 kg/m3 above TEOS-10, hence 0.06 there."""
    fresh, sea = water_at(18.5), water_at(19.2, 35.16504)
    assert fresh.density == pytest.approx(998.5048, abs=1e-4)
    assert fresh.viscosity == pytest.approx(1.0411e-6, abs=1e-10)
    assert sea.density == pytest.approx(1025.0187, abs=0.06)
    assert sea.density == pytest.approx(1024.9743, abs=1e-4)  # gsw itself
    assert sea.viscosity == pytest.approx(1.0711e-6, rel=0.01)
    rows = [(0, 999.8425, 1.792e-6), (15, 999.1026, 1.139e-6), (30, 995.6502, 8.01e-7)]
    for celsius, density, viscosity in rows:
        assert water_at(celsius).density == pytest.approx(density, abs=1e-3)
        assert water_at(celsius).viscosity == pytest.approx(viscosity, abs=1e-9)


def test_older_equation_of_state():
    """EOS-80 (UNESCO 1983), S = 35, 15 degrees C: 1025.973; the two equations differ by 0.003 kg/m3."""
    assert properties.water_density(15.0, 35.16504) == pytest.approx(1025.973, abs=5e-3)


def test_fresh_to_sea_and_cold_to_warm():
    """15 degrees C: sea water is 2.69 % denser and 4.46 % more viscous; 10 to 25 degrees takes 31.7 % off."""
    fresh, sea = water_at(15.0), water_at(15.0, 35.16504)
    assert sea.density / fresh.density - 1.0 == pytest.approx(0.0269, abs=5e-5)
    assert sea.viscosity / fresh.viscosity - 1.0 == pytest.approx(0.0446, abs=0.002)
    assert 1.0 - water_at(25.0).viscosity / water_at(10.0).viscosity == pytest.approx(0.317, abs=0.001)


@pytest.mark.parametrize(
    ("latitude", "gravity"),
    [(0, 9.78033), (30, 9.79325), (45, 9.80620), (46, 9.80710), (60, 9.81918), (-46, 9.80710)],
)
def test_gravity(latitude, gravity):
    assert properties.gravity_at(latitude) == pytest.approx(gravity, abs=1e-5)
    assert water_at(latitude_deg=latitude).gravity == properties.gravity_at(latitude)
    assert water_at().gravity == 9.80665


@pytest.mark.parametrize(
    ("celsius", "density", "viscosity"),
    [(0, 1.2923, 1.328e-5), (5, 1.2690, 1.372e-5), (10, 1.2466, 1.416e-5), (15, 1.2250, 1.461e-5),
     (20, 1.2041, 1.506e-5), (25, 1.1839, 1.552e-5), (30, 1.1644, 1.598e-5)],
)  # fmt: skip
def test_air_at_sea_level(celsius, density, viscosity):
    air = water_at(air_temperature_c=celsius)
    assert air.air_density == pytest.approx(density, abs=1e-4)
    assert air.air_viscosity == pytest.approx(viscosity, abs=1e-8)


@pytest.mark.parametrize(("altitude", "density"), [(0, 1.2250), (500, 1.1673), (1000, 1.1116)])
def test_air_of_a_mountain_lake(altitude, density):
    """Standard atmosphere: the temperature falls by 6.5 degrees a kilometre."""
    there = water_at(air_temperature_c=15.0 - 0.0065 * altitude, altitude_m=altitude)
    assert there.air_density == pytest.approx(density, abs=1e-4)


def test_outside_the_formulas():
    outside = {"temperature_c": 60.0, "salinity_g_kg": -1.0, "air_temperature_c": 300.0, "altitude_m": 2e4}
    for name, value in outside.items():
        with pytest.raises(ValueError, match="the formulas hold from"):
            water_at(**{name: value})
