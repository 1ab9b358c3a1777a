"""sae_j2807: the grade of the towing trial, 3500 ft in 11.4 miles."""

from typing import Any

from scipy.constants import foot, mile, mph

from toptank.equations.road_load import road_load_power

LIFT, ROAD, MASS, G = 3500.0 * foot, 11.4 * mile, 4000.0, 9.80665


def test_the_mean_grade_lifts_the_vehicle_by_the_printed_height(published: Any) -> None:
    V = 40.0 * mph
    power = road_load_power(m=MASS, V=V, grade=0.058, C_rr=0.0, C_dA=0.0, rho=1.1, g=G, U=V)
    published(
        source="sae_j2807", where="highway grade", quantity="height climbed on 11.4 miles at 5.8 %", unit="ft",
        value=3500.0,
        # within: the grade is printed to two digits (0.9 %)
        within=0.009 * 3500.0, because="grade printed to two digits: 0.9 %",
        computed=power * (ROAD / V) / (MASS * G) / foot,
    )  # fmt: skip
