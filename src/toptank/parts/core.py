"""The radiator core: what a tape measure, a fin count and a look down the neck say of it."""

import math
from dataclasses import dataclass

from toptank.media.metal import heat_capacity_by_volume
from toptank.units.arrays import Real, namespace
from toptank.units.declaration import declare, declare_choice
from toptank.units.dimension import ANGLE, CONDUCTIVITY, COUNT, FIN_DENSITY, FRACTION, LENGTH, NUMBER

TANKS = 1.5
"""Metal of core, headers and tanks over that of fins and tubes [1]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Core:
    """A core of flat tubes and fins. The coolant runs down it or across it, in one pass or several."""

    # fmt: off
    face_width: Real = declare(
        "width of the finned face", LENGTH, hard=(0.1, 2.5), plausible=(0.3, 1.0), typical=0.6, spread=0.05,
        measure="tape across the fins, tanks and side straps not counted")
    face_height: Real = declare(
        "height of the finned face", LENGTH, hard=(0.1, 2.0), plausible=(0.25, 0.8), typical=0.43, spread=0.03,
        measure="tape up the fins, headers not counted")
    arrangement: Real = declare_choice(
        "way the coolant runs", ("downflow", "crossflow"), typical="downflow",
        measure="tanks above and below: downflow; tanks left and right: crossflow")
    passes: Real = declare(
        "times the coolant crosses the face", COUNT, hard=(1, 3), plausible=(1, 3), typical=1, spread=0.0,
        measure="inlet and outlet on opposite tanks: 1 or 3; both on one tank, with a divider inside: 2")
    rows: Real = declare(
        "rows of tubes, front to back", COUNT, hard=(1, 8), plausible=(1, 5), typical=2, spread=0.0,
        measure="look down the filler neck, or count tube ends behind the fins from the side")
    tube_width: Real = declare(
        "width of a tube, front to back", LENGTH, hard=(0.005, 0.1), plausible=(0.01, 0.06), typical=0.0159,
        spread=0.0016, measure="caliper on the tube ends under the neck, or between the fins at the side")
    tube_thickness: Real = declare(
        "thickness of a tube across the face, outside", LENGTH, hard=(0.0012, 0.01), plausible=(0.0015, 0.005),
        typical=0.0024, spread=0.0003, measure="caliper on a tube seen from the front")
    tube_wall: Real = declare(
        "wall of a tube", LENGTH, hard=(0.00005, 0.0005), plausible=(0.0001, 0.0004), typical=0.00013,
        spread=0.00003, measure="maker's print; seldom known and of little weight")
    tube_kind: Real = declare_choice(
        "make of the tubes", ("plain", "lock-seam", "dimpled"), typical="lock-seam", doubt=0.1,
        measure="look at a tube end: a folded seam is lock-seam, smooth all round is plain, dents along the flat sides "
        "are dimpled")
    tube_pitch: Real = declare(
        "spacing of the tubes across the face, centre to centre", LENGTH, hard=(0.006, 0.03),
        plausible=(0.008, 0.016), typical=0.0111, spread=0.0008, measure="tape over eleven tubes, divided by ten")
    row_pitch: Real = declare(
        "spacing of the rows front to back, centre to centre", LENGTH, hard=(0.006, 0.12), plausible=(0.012, 0.07),
        typical=0.0178, spread=0.001, measure="core depth less one tube width, divided by rows less one")
    fin_density: Real = declare(
        "fins along the tube", FIN_DENSITY, hard=(100, 1200), plausible=(200, 900), typical=433, spread=45,
        measure="count the fins along one inch of tube; both legs of a zigzag count")
    fin_thickness: Real = declare(
        "thickness of the fin sheet", LENGTH, hard=(0.00002, 0.0003), plausible=(0.00003, 0.0002), typical=0.000076,
        spread=0.000015, measure="micrometer on a loose fin; seldom known")
    fin_kind: Real = declare_choice(
        "louvered, plain or dented fins", ("louvered", "plain", "dented"), typical="louvered", doubt=0.05,
        measure="look along a fin with a lamp: rows of slits are louvers; dents, dimples or waves across the air, as "
        "nearly all cores before the 1950s have, are dented; flat sheet is plain")
    dent_pitch: Real = declare(
        "distance from dent to dent in the direction of the air, on dented fins", LENGTH, hard=(0.002, 0.08),
        plausible=(0.006, 0.03), typical=0.0125, spread=0.3, relative=True,
        measure="ruler along the depth of a fin, from one dent or wave to the next; 8 to 17 mm, judgement")
    dent_drag: Real = declare(
        "friction of dented fins over that of a smooth sheet whose boundary layer starts afresh at each dent", NUMBER,
        hard=(1.0, 5.0), plausible=(1.1, 3.0), typical=1.5, spread=0.2, relative=True,
        measure="not measured: the dents' own drag; judgement")
    louver_pitch: Real = declare(
        "width of one louver in the direction of the air", LENGTH, hard=(0.0004, 0.004), plausible=(0.0007, 0.0025),
        typical=0.0011, spread=0.0002, measure="count the slits along the depth of a fin")
    louver_angle: Real = declare(
        "angle of the louvers", ANGLE, hard=(math.radians(8), math.radians(40)),
        plausible=(math.radians(15), math.radians(35)), typical=math.radians(25), spread=math.radians(3),
        measure="seldom measured; old cores are shallow")
    louver_share: Real = declare(
        "length of a louver over the height of the fin", FRACTION, hard=(0.4, 0.98), plausible=(0.6, 0.95),
        typical=0.85, spread=0.05, measure="length of a slit over the gap between two tubes")
    material: Real = declare_choice(
        "metal of the core", ("copper-brass", "aluminium"), typical="copper-brass",
        measure="scratch a fin: red is copper, white is aluminium")
    tanks: Real = declare_choice(
        "tanks of the radiator", ("metal", "plastic"), typical="metal", doubt=0.02,
        measure="black and crimped to the headers: plastic, cannot be opened to rod it out; soldered or welded: metal")
    scale_thickness: Real = declare(
        "scale on the inside of the tubes", LENGTH, hard=(0.0, 0.002), plausible=(0.0, 0.0008), typical=0.0,
        spread=0.00005, measure="mirror and lamp down the neck; scrape a tube end")
    scale_conductivity: Real = declare(
        "conductivity of the scale", CONDUCTIVITY, hard=(0.3, 4.0), plausible=(0.5, 3.0), typical=1.2, spread=0.35,
        relative=True, measure="not measured: porous scale 0.5 to 1.5, dense 2.2 to 2.9 W/(m K), typical, no source")
    blocked_tubes: Real = declare(
        "share of the tubes that let nothing through", FRACTION, hard=(0.0, 0.9), plausible=(0.0, 0.5), typical=0.0,
        spread=0.02, measure="infrared along the face when hot: cold strips; tube ends under a mirror")
    blocked_face: Real = declare(
        "share of the face closed by dirt, insects or flattened fins", FRACTION, hard=(0.0, 0.9),
        plausible=(0.0, 0.5), typical=0.03, spread=0.03,
        measure="lamp behind the core, look from the front: the dark share")
    loose_fins: Real = declare(
        "share of the fins that have lost their bond to the tubes", FRACTION, hard=(0.0, 0.95), plausible=(0.0, 0.6),
        typical=0.0, spread=0.03, measure="fins that move under a finger, white or green bloom at the joint")
    # fmt: on

    def face_area(self) -> Real:
        """Area of the finned face [m2]."""
        return self.face_width * self.face_height

    def depth(self) -> Real:
        """Depth of the fins in the direction of the air [m]."""
        return (self.rows - 1.0) * self.row_pitch + self.tube_width

    def tube_length(self) -> Real:
        """Length of one tube [m]."""
        xp = namespace(self.arrangement, self.face_height, self.face_width)
        return xp.where(self.arrangement < 0.5, self.face_height, self.face_width)

    def tubes(self) -> Real:
        """Number of tubes in all rows, the blocked ones counted too [1]."""
        return self.face_area() / self.tube_length() / self.tube_pitch * self.rows

    def fin_pitch(self) -> Real:
        """Spacing of the fins [m]."""
        return 1.0 / self.fin_density

    def fin_height(self) -> Real:
        """Clear gap between two neighbouring tubes, bridged by the fin [m]; a tenth of the pitch at the least."""
        xp = namespace(self.tube_pitch, self.tube_thickness)
        return xp.maximum(self.tube_pitch - self.tube_thickness, 0.1 * self.tube_pitch)

    def channel(self) -> tuple[Real, Real]:
        """Height and width of the channel between two fins and two tubes [m, m]."""
        xp = namespace(self.fin_density, self.fin_thickness)
        return self.fin_height() - self.fin_thickness, xp.maximum(self.fin_pitch() - self.fin_thickness, 1e-4)

    def free_area_ratio(self) -> Real:
        """Free area between tubes and fins over the face area, sigma [1]."""
        height, width = self.channel()
        return height * width / (self.tube_pitch * self.fin_pitch())

    def channel_hydraulic_diameter(self) -> Real:
        """Four times the free area over the wetted perimeter of one air channel [m]."""
        height, width = self.channel()
        return 2.0 * height * width / (height + width)

    def air_area(self) -> tuple[Real, Real]:
        """Area swept by the air over the face area, and the share of it that is fin [1, 1]."""
        height, width = self.channel()
        return 2.0 * (height + width) * self.depth() / (self.tube_pitch * self.fin_pitch()), height / (height + width)

    def metal_heat_capacity(self) -> Real:
        """Heat that the metal of fins, tubes and tanks takes up per kelvin [J/K]; tanks and headers by TANKS."""
        height, width = self.channel()
        fins = self.face_area() * self.depth() * (1.0 - height * width / (self.fin_height() * self.fin_pitch()))
        walls = self.tubes() * self.tube_length() * self.bore()[1] * self.tube_wall
        return TANKS * (fins * self.fin_height() / self.tube_pitch + walls) * heat_capacity_by_volume(self.material)

    def bore(self) -> tuple[Real, Real, Real]:
        """Flow area [m2], wetted perimeter [m] and gap-to-width ratio [1] of one clean tube with rounded edges."""
        xp = namespace(self.tube_thickness, self.tube_width)
        gap = self.tube_thickness - 2.0 * self.tube_wall
        flat = xp.maximum(self.tube_width - self.tube_thickness, 0.0)
        return gap * flat + math.pi / 4.0 * gap * gap, 2.0 * flat + math.pi * gap, gap / (flat + gap)
