"""Published lengths and masses of body segments, and the standard body that drawings and figures use.

Lengths: Drillis R, Contini R (1966), Body Segment Parameters, New York University, Technical Report
1166.03, as reproduced in Winter DA (2009), Biomechanics and Motor Control of Human Movement, 4th ed.,
figure 4.1: fractions of stature. The thigh is 0.530 - 0.285 = 0.245 (a copy of the table in circulation
subtracts 0.246).

Masses and centres of mass: Winter (2009), table 4.1, after Dempster WT (1955), WADC-TR-55-159; the second
set is de Leva P (1996), Journal of Biomechanics 29:1223-1230, table 4, means of men and women. Their end
points differ: rows of one table are never mixed with rows of the other.
"""

from dataclasses import dataclass, field, fields

GRAVITY = 9.81
"""Metres per second squared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """Segment lengths, as fractions of stature unless a body says otherwise."""

    ankle: float = 0.039
    """Height of the ankle above the floor."""
    shank: float = 0.246
    thigh: float = 0.245
    trunk: float = 0.288
    """Hip (greater trochanter) to shoulder."""
    upper_arm: float = 0.186
    forearm: float = 0.146
    hand: float = 0.108
    foot: float = 0.152
    head_and_neck: float = 0.182
    """Shoulder to the top of the head."""
    ear: float = 0.112
    """Shoulder to the ear canal (0.93 of stature), the centre of mass of head and neck in the table."""


@dataclass(frozen=True, slots=True)
class SegmentMass:
    """Mass as a fraction of body mass, and the centre of mass as a fraction from the proximal end."""

    mass: float
    centre: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Masses:
    """One published set; arms and legs are given for one side."""

    head: SegmentMass
    trunk: SegmentMass
    """From the hip upwards."""
    upper_arm: SegmentMass
    forearm: SegmentMass
    hand: SegmentMass
    thigh: SegmentMass
    shank: SegmentMass
    foot: SegmentMass

    @property
    def total(self) -> float:
        """The sum over the whole body; 1 but for rounding in the source."""
        pairs = self.upper_arm, self.forearm, self.hand, self.thigh, self.shank, self.foot
        return self.head.mass + self.trunk.mass + 2 * sum(part.mass for part in pairs)


WINTER = Masses(
    # Table 4.1 of Winter 2009: share of the body's mass, and where its centre is from the near end.
    head=SegmentMass(0.081, 1.000),
    trunk=SegmentMass(0.497, 0.50),
    upper_arm=SegmentMass(0.028, 0.436),
    forearm=SegmentMass(0.016, 0.430),
    hand=SegmentMass(0.006, 0.506),
    thigh=SegmentMass(0.100, 0.433),
    shank=SegmentMass(0.0465, 0.433),
    foot=SegmentMass(0.0145, 0.50),
)


@dataclass(frozen=True, kw_only=True)
class Body:
    """A body: stature in centimetres, mass in kilograms, and the tables it is made from."""

    stature: float = 175.0
    mass: float = 70.0
    masses: Masses = WINTER
    cm: Lengths = field(init=False)
    """Segment lengths in centimetres."""

    def __post_init__(self) -> None:
        fractions = {one.name: getattr(Lengths(), one.name) for one in fields(Lengths)}
        sizes = {name: fraction * self.stature for name, fraction in fractions.items()}
        object.__setattr__(self, "cm", Lengths(**sizes))

    @property
    def weight(self) -> float:
        """The weight of the whole body, in newtons."""
        return self.mass * GRAVITY


STANDARD = Body()
"""The 1.75 m and 70 kg for which the reference values were worked out."""
