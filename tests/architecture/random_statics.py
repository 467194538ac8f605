"""Generators of the records of sections, bars, equipment and rods out of plumb: see `random_records`."""

import numpy as np

from core.statics.bars import forces, random_bars
from core.statics.beams import padded
from core.statics.equipment import hung, random_bodies
from hangpoint.core.statics.channel_section import ChannelSection, channel_section
from hangpoint.core.statics.out_of_plumb import OutOfPlumb, out_of_plumb
from hangpoint.core.statics.suspended_equipment import EquipmentSupport
from hangpoint.core.statics.trapeze_bar import TrapezeBar, trapeze_bar


def _channel_section(random):
    t = random.wide(0.03, 0.3)
    b, h = t * random.flat(12, 30), t * random.flat(8, 30)
    return channel_section(
        b=b,
        h=h,
        t=t,
        d_lip=np.where(random.coin(0.2), t, t * random.flat(2, 5)),
        d_return=random.coin(0.6) * t * random.flat(1, 4),
        r=random.coin(0.7) * t * random.flat(0.5, 1.5),
        b_slot=random.coin(0.4) * b * random.flat(0.1, 0.9),
        back_to_back=random.coin(0.3),
        rho=random.flat(150, 520),
    )


def _trapeze_bar(random):
    bars = random_bars(random.rng, random.rows)
    _, made = forces(*bars)
    return trapeze_bar(
        forces=made,
        spans=padded([each["spans"] for each in bars], made.deflection.shape[1]),
        span_count=np.array([len(each["spans"]) for each in bars]),
        start=np.array([each["start"] for each in bars]),
        end=np.array([each["end"] for each in bars]),
        w=np.array([each["w"] for each in bars]),
        s_x=random.wide(0.05, 5),
        i_x=random.wide(0.02, 10),
        e=random.flat(10e6, 30e6),
        f_b=random.flat(10_000, 40_000),
        limit=random.of(120, 180, 240, 360),
    )


def _equipment_support(random):
    return hung(*random_bodies(random.rng, random.rows)).supports.take(np.arange(random.rows))


def _out_of_plumb(random):
    return out_of_plumb(p=random.wide(1, 1e4), alpha=random.flat(0, 80))


GENERATORS = {
    ChannelSection: _channel_section,
    EquipmentSupport: _equipment_support,
    OutOfPlumb: _out_of_plumb,
    TrapezeBar: _trapeze_bar,
}
