"""Saddle height and setback carried over to another frame, cranks, pedals and post."""

import math

from .calculations import calculation
from .quantities import number
from .working import Work, shown

NEAR = 1e-9


@calculation(
    id="saddle-transfer",
    family="position",
    title="Saddle transfer",
    question="Where does the saddle go on this bike, and does the post reach?",
    inputs=[
        number(
            "saddle_height",
            "mm",
            "Saddle height on the old bike",
            possible=(300, 1100),
            plausible=(580, 880),
            step=1,
            digits=0,
            help="Bottom-bracket centre to the saddle's top along the line of the seat tube.",
        ),
        number(
            "saddle_setback",
            "mm",
            "Saddle behind the bottom bracket",
            possible=(-200, 400),
            plausible=(0, 250),
            step=1,
            digits=0,
            help="Level: from a plumb line through the bottom bracket back to the saddle's reference point. Below zero: ahead.",
        ),
        number(
            "reference_ahead",
            "mm",
            "Reference point ahead of mid-rail",
            default=0,
            possible=(-200, 250),
            plausible=(-50, 160),
            step=1,
            digits=0,
            help="0 when you measure to the middle of the rails; to the nose, how far the nose is ahead of that middle.",
        ),
        number("crank_old", "mm", "Crank length, old", possible=(80, 220), plausible=(160, 180), step=2.5, digits=1),
        number("crank_new", "mm", "Crank length, new", possible=(80, 220), plausible=(160, 180), step=2.5, digits=1),
        number(
            "pedal_stack_old",
            "mm",
            "Pedal stack, old",
            default=0,
            possible=(-20, 80),
            plausible=(0, 40),
            step=0.5,
            digits=1,
            help="Pedal axle centre to the sole. Leave both at 0 when pedals and shoes stay the same.",
        ),
        number(
            "pedal_stack_new", "mm", "Pedal stack, new", default=0, possible=(-20, 80), plausible=(0, 40), step=0.5, digits=1
        ),
        number(
            "seat_angle",
            "°",
            "Seat angle",
            possible=(55, 90),
            plausible=(70, 78),
            step=0.1,
            digits=1,
            help="Of the new frame, from the horizontal, along the post as it will stand, bike level.",
        ),
        number(
            "post_offset",
            "mm",
            "Post offset",
            possible=(-50, 80),
            plausible=(0, 35),
            step=1,
            digits=0,
            help="How far the middle of the rail clamp sits behind the post's centre line, square to the post.",
        ),
        number(
            "rail_to_top",
            "mm",
            "Rail to saddle top",
            possible=(15, 120),
            plausible=(35, 65),
            step=1,
            digits=0,
            help="Rail centre at the clamp straight up to the saddle's top.",
        ),
        number(
            "rail_range",
            "mm",
            "Usable rail, each way",
            possible=(0, 80),
            plausible=(10, 40),
            step=1,
            digits=0,
            help="How far the clamp may sit from mid-rail, inside the marks on the rails.",
        ),
        number(
            "seat_tube",
            "mm",
            "Seat tube to the clamp's top",
            possible=(150, 800),
            plausible=(380, 620),
            step=1,
            digits=0,
            help="Bottom-bracket centre to where the post leaves the frame, along the seat tube.",
        ),
        number(
            "post_length",
            "mm",
            "Post length",
            possible=(60, 700),
            plausible=(200, 450),
            step=1,
            digits=0,
            help="Lower end to the middle of the rail clamp, along the post.",
        ),
        number(
            "min_insertion",
            "mm",
            "Least insertion",
            possible=(10, 300),
            plausible=(50, 120),
            step=1,
            digits=0,
            help="The greater of the post's mark and what the frame's maker asks. 16 CFR 1512.15(b): the mark leaves at least "
            "two diameters in.",
        ),
    ],
    outputs=[
        number("saddle_height_new", "mm", "Saddle height", digits=1),
        number("saddle_x", "mm", "Reference point ahead of the bottom bracket", digits=1, help="Below zero: behind."),
        number("saddle_y", "mm", "Saddle top above the bottom bracket", digits=1),
        number("rail_shift", "mm", "Saddle from mid-rail", digits=1, help="+ forward in the clamp."),
        number("post_exposed", "mm", "Post showing, to mid-clamp", digits=1),
        number("post_inserted", "mm", "Post in the frame", digits=1),
    ],
    cautions=[
        "Never ride with the least-insertion mark showing; post and frame can break. Frame and post each have their own least.",
        "Clamp only within the rails' marks and to the marked torque; on carbon rails and posts never above it.",
        "Ride the new height gently first: a change of crank or pedal is felt in the knees.",
    ],
    source="Plane geometry; leg length from saddle to sole at the bottom of the stroke kept. Insertion: 16 CFR 1512.15(b).",
    example={
        "saddle_height": 730,
        "saddle_setback": 195,
        "crank_old": 172.5,
        "crank_new": 170,
        "pedal_stack_old": 12,
        "pedal_stack_new": 10.5,
        "seat_angle": 73.5,
        "post_offset": 20,
        "rail_to_top": 45,
        "rail_range": 25,
        "seat_tube": 500,
        "post_length": 330,
        "min_insertion": 80,
    },
)
def saddle_transfer(
    work: Work,
    *,
    saddle_height: float,
    saddle_setback: float,
    reference_ahead: float,
    crank_old: float,
    crank_new: float,
    pedal_stack_old: float,
    pedal_stack_new: float,
    seat_angle: float,
    post_offset: float,
    rail_to_top: float,
    rail_range: float,
    seat_tube: float,
    post_length: float,
    min_insertion: float,
) -> dict[str, object]:
    """Saddle place from the bottom-bracket centre (mm, x forward, y up), the shift in the rails and the post's insertion.

    The saddle is level; the post stands on the line through the bottom bracket at the seat angle.
    """
    height = saddle_height + crank_old - crank_new + pedal_stack_new - pedal_stack_old
    seat = math.radians(seat_angle)
    sin_seat, cos_seat = math.sin(seat), math.cos(seat)
    saddle_x = -saddle_setback
    saddle_y = height * sin_seat
    # Up the post until the clamp, which sits post_offset behind it, is as high as the rails.
    along = (saddle_y - rail_to_top + post_offset * cos_seat) / sin_seat
    clamp_x = -along * cos_seat - post_offset * sin_seat
    rail_shift = saddle_x - reference_ahead - clamp_x
    exposed = along - seat_tube
    inserted = post_length - exposed
    work.line(
        "saddle_height_new",
        "saddle_height + crank_old − crank_new + pedal_stack_new − pedal_stack_old",
        height,
        "mm",
        saddle_height=saddle_height,
        crank_old=crank_old,
        crank_new=crank_new,
        pedal_stack_new=pedal_stack_new,
        pedal_stack_old=pedal_stack_old,
    )
    work.line("saddle_x", "0 − saddle_setback", saddle_x, "mm", saddle_setback=saddle_setback)
    work.line(
        "saddle_y",
        "saddle_height_new × sin(seat_angle)",
        saddle_y,
        "mm",
        saddle_height_new=height,
        seat_angle=seat_angle,
    )
    work.line(
        "along_post",
        "(saddle_y − rail_to_top + post_offset × cos(seat_angle)) / sin(seat_angle)",
        along,
        "mm",
        saddle_y=saddle_y,
        rail_to_top=rail_to_top,
        post_offset=post_offset,
        seat_angle=seat_angle,
    )
    work.line(
        "rail_shift",
        "saddle_x − reference_ahead + along_post × cos(seat_angle) + post_offset × sin(seat_angle)",
        rail_shift,
        "mm",
        saddle_x=saddle_x,
        reference_ahead=reference_ahead,
        along_post=along,
        seat_angle=seat_angle,
        post_offset=post_offset,
    )
    work.line("post_exposed", "along_post − seat_tube", exposed, "mm", along_post=along, seat_tube=seat_tube)
    work.line("post_inserted", "post_length − post_exposed", inserted, "mm", post_length=post_length, post_exposed=exposed)
    if inserted < min_insertion - NEAR:
        work.stop(
            "post_length",
            "Only "
            + shown(inserted, 1)
            + " mm of the post would be in the frame, "
            + shown(min_insertion, 1)
            + " mm are the least: a longer post by "
            + shown(min_insertion - inserted, 1)
            + " mm or more.",
        )
    if exposed < 0:
        work.stop(
            "seat_tube",
            "The clamp would be " + shown(-exposed, 1) + " mm below the top of the seat tube: the frame is too tall.",
        )
    if abs(rail_shift) > rail_range + NEAR:
        if rail_shift > 0:
            way = "forward: a post with less offset"
        else:
            way = "back: a post with more offset"
        work.stop(
            "rail_range",
            "The saddle would have to slide "
            + shown(abs(rail_shift), 1)
            + " mm "
            + way
            + " by "
            + shown(abs(rail_shift) - rail_range, 1)
            + " mm or more.",
        )
    return {
        "saddle_height_new": height,
        "saddle_x": saddle_x,
        "saddle_y": saddle_y,
        "rail_shift": rail_shift,
        "post_exposed": exposed,
        "post_inserted": inserted,
    }
