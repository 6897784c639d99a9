//! Rules of practice, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::{Bearing, FillingKind, PracticeKind, Push, RoomSaid, Rule};

pub(super) fn said(words: &Words<'_>, kind: &PracticeKind) -> Said {
    match kind {
        PracticeKind::NotCarried(bearing) => Said::new(say!(words, "The tank does not stand on what the job says carries it: {bearing} is not under it.", bearing = bearing_name(words, *bearing)))
            .source(say!(words, "places of body and support in the job"))
            .cure(say!(words, "Check where the body lies and the places of the support."))
            .entry("[body] at, [support] at"),
        PracticeKind::NoSuchLiquid { density, least } if density < least => Said::new(say!(words, "A density of {density} belongs to no liquid these tanks are for: under {least} it is a fuel, an oil or a solvent, or a slip of the unit.", density = words.density(*density), least = words.density(*least)))
            .source(common(words))
            .cure(say!(words, "Check the number and its unit. Fuels are under other laws.")),
        PracticeKind::NoSuchLiquid { density, .. } => Said::new(say!(words, "No liquid is as heavy as {density}.", density = words.density(*density)))
            .source(common(words))
            .cure(say!(words, "Check the number and its unit.")),
        PracticeKind::LiquidUnknown => Said::new(say!(words, "That sheet, rod, seals and fittings stand this liquid is not checked, nor what it does to people."))
            .source(say!(words, "no table of resistance is kept here"))
            .cure(say!(words, "Ask the makers of sheet and fittings for this liquid at its strength and temperature; for acids, bleaches and the like follow the local rules on catch trays, labels and protection.")),
        PracticeKind::MakerHasToAnswer { oxidiser } => Said::new(match oxidiser {
                true => say!(words, "The liquid oxidises the sheet: by how much, and for how long it lasts, only the maker of the sheet can say."),
                false => say!(words, "The liquid is an acid: whether the sheet stands it, and by how much it is weakened, only the maker of the sheet can say."),
            })
            .source(common(words))
            .cure(say!(words, "Ask the maker of the sheet for its factor A2 with this liquid at its strength and warmth, and write it into the job. Follow the local rules on catch trays, labels and protection."))
            .entry(match words.job.compartments.is_empty() {
                true => "[liquid] medium_factor",
                false => "[liquid] medium_factor, [[compartment]] medium_factor",
            }),
        PracticeKind::Brittle { moves } => Said::new(match moves {
                true => say!(words, "The sheet is brittle so cold, and on the way it meets shocks."),
                false => say!(words, "The sheet is brittle so cold: a knock may crack it."),
            })
            .source(say!(words, "the coldest use of the sheet's material, from memory"))
            .cure(say!(words, "HDPE, a tougher grade by its maker's word, or a warmer place."))
            .entry("[liquid] coldest"),
        PracticeKind::NearlyBrittle => Said::new(say!(words, "So cold the sheet is at its limit: by its make it may be brittle or not, and on the way it meets shocks."))
            .source(say!(words, "the coldest use of the sheet's material, from memory"))
            .cure(say!(words, "The word of the sheet's maker for its coldest use, HDPE, or a warmer place."))
            .entry("[liquid] coldest"),
        PracticeKind::BelowRule(rule) => Said::new(match rule {
                Rule::SafetyFactor => say!(words, "The job sets a lower safety factor than the rule has."),
                Rule::FillingHead => say!(words, "The job sets a lower filling head than is usual."),
                Rule::Suction => say!(words, "The job sets a lower suction than is usual."),
                Rule::Push(Push::Forward) => say!(words, "The job's events push less hard forward, in g, than braking on a road is taken to."),
                Rule::Push(Push::Rear) => say!(words, "The job's events push less hard to the rear, in g, than reversing on a road is taken to."),
                Rule::Push(Push::Side) => say!(words, "The job's events push less hard to the side, in g, than a bend of a road is taken to."),
                Rule::Push(Push::Up) => say!(words, "The job's events push less hard up, in g, than a bump of a road is taken to."),
                Rule::Push(Push::Down) => say!(words, "The job's events push less hard down, in g, than a bump of a road is taken to."),
                Rule::PushesPerDay(push) => {
                    let way = match push {
                        Push::Forward => say!(words, "forward"),
                        Push::Rear => say!(words, "to the rear"),
                        Push::Side => say!(words, "to the side"),
                        Push::Up => say!(words, "up"),
                        Push::Down => say!(words, "down"),
                    };
                    say!(words, "The job's events push as hard as those of a road {way} less often in a day than is usual.", way = way)
                }
                Rule::Years => say!(words, "The job asks for less than one year of service: strength is that of so short a time."),
                Rule::Density { own, table } => say!(words, "The job sets a density of {own}, and the table has {table} for this liquid.", own = words.density(*own), table = words.density(*table)),
            })
            .source(say!(words, "rules and tables of the strength check"))
            .cure(say!(words, "Leave it out, or be sure of it: everything here is weaker for it.")),
        PracticeKind::DividerLeaks => Said::new(say!(words, "This divider does not divide: the liquid gets from one side of it to the other."))
            .source(rooms(words))
            .cure(say!(words, "Let it reach from wall to wall, or call it a baffle.")),
        PracticeKind::NotOneRoom { between, said } => Said::new(match said {
                RoomSaid::Dry => say!(words, "No single room lies between these panels, which the job says bound a dry one: {names}.", names = words.all_given(between)),
                RoomSaid::Compartment => say!(words, "No single room lies between these panels, which the job says bound a compartment: {names}.", names = words.all_given(between)),
            })
            .source(rooms(words))
            .cure(say!(words, "Name two panels that bound this room and no other together: two dividers, or a divider and the wall across from it."))
            .entry(room_entry(*said)),
        PracticeKind::RoomSaidTwice { between, first } => Said::new(match first {
                RoomSaid::Dry => say!(words, "The job says that the room between these panels stays dry, and then what it holds: {names}.", names = words.all_given(between)),
                RoomSaid::Compartment => say!(words, "The job says twice what the room between these panels holds: {names}.", names = words.all_given(between)),
            })
            .source(rooms(words))
            .cure(say!(words, "Take out one of the two, or name the panels of another room."))
            .entry(room_entry(RoomSaid::Compartment)),
        PracticeKind::DrinkingWaterBesideOther { drinking, other } => Said::new(say!(words, "This single wall parts the drinking water in {drinking} from another liquid in {other}: a leak through it spoils the water, and nobody sees it.", drinking = words.compartment(*drinking), other = words.compartment(*other)))
            .source(say!(words, "common practice: plumbing codes keep drinking water and any other liquid from sharing a single wall; the local code rules"))
            .cure(say!(words, "Make it two dividers with a dry gap between them that drains to where a leak is seen, or two tanks. Ask whoever enforces the local plumbing code."))
            .entry("[[inner]] kind = \"divider\", [[dry]] between"),
        PracticeKind::GrowsBetweenChocks { between: [one, other], growth } => Said::new(say!(words, "Chocks stand against the {one} and the {other} panel, and from coldest to warmest it grows by {growth} between them: the check takes them not to squeeze it.", one = words.panel(one), other = words.panel(other), growth = words.length(*growth)))
            .source(say!(words, "growth by warmth over the whole length, with the greatest coefficient of the table"))
            .cure(say!(words, "Leave that much between wall and chocks, on both sides together, at the workshop's temperature; or hold it at one end alone."))
            .entry("[support] chocks"),
        PracticeKind::ClosedRoom => Said::new(say!(words, "No opening leads into this room: it counts for no capacity, and its air, shut in, strains the walls when it warms."))
            .source(rooms(words))
            .cure(say!(words, "Give it openings to fill, vent and draw; or, if it is meant to stay dry, say so, and give it one small opening to breathe."))
            .entry("[[dry]] between"),
        PracticeKind::DryIsFilled { opening } => Said::new(say!(words, "It is said to stay dry, and `{opening}` lets liquid in or out.", opening = words.given(opening)))
            .source(rooms(words))
            .cure(say!(words, "Move the opening, or take out that the room stays dry."))
            .entry("[[dry]] between"),
        PracticeKind::DrySealed => Said::new(say!(words, "It stays dry and nothing leads out of it: its air, shut in, strains the walls when it warms, which is not worked out here, and nobody sees it when a wall of it leaks."))
            .source(rooms(words))
            .cure(say!(words, "Give it a small opening to breathe, low down, so that a leak shows."))
            .entry("[[opening]] service = \"drain\""),
        PracticeKind::BayClosed => Said::new(say!(words, "A baffle without any opening closes off part of it: no liquid gets there, and no air out."))
            .source(rooms(words))
            .cure(say!(words, "Give the baffle air and drain gaps or holes, or make it a divider with ports on both sides.")),
        PracticeKind::AxlesNotComputed => Said::new(say!(words, "Loads on axles and coupling are not worked out."))
            .cure(say!(words, "Take mass and centre of mass from the pack to whoever answers for the vehicle.")),
        PracticeKind::NotPriced => Said::new(say!(words, "The tank is not priced yet."))
            .cure(say!(words, "Sheets, rod and hours are listed; price them by hand.")),
        PracticeKind::BrimTooHeavy => Said::new(say!(words, "Filled past its rated capacity, to the brim, the tank weighs more than the vehicle may carry."))
            .source(payload(words))
            .cure(say!(words, "Mark the highest fill on the tank, or set an overflow there.")),
        PracticeKind::RatedTooHeavy { fill } => Said::new(say!(words, "The tank filled to its rated capacity weighs more than the vehicle may carry."))
            .source(payload(words))
            .cure(say!(words, "Fill to no more than {fill}, or build a smaller tank. Axle loads are for the vehicle's maker or a licensed engineer to say.", fill = words.volume(*fill))),
        PracticeKind::Filling(kind) => filling(words, kind),
        PracticeKind::Freezes { guarded } => Said::new(match guarded {
                false => say!(words, "The liquid freezes at the coldest of the job: a full tank that freezes bursts, and its lines and valves before it."),
                true => say!(words, "The liquid would freeze at the coldest of the job but for the antifreeze in it, and how much that is the job does not say."),
            })
            .source(say!(words, "the table of liquids, from memory"))
            .cure(match guarded {
                false => say!(words, "Drain it before frost, lines too; or insulate and heat it, with air left for the ice; or put in antifreeze that is safe for what the liquid is used for. If it never gets so cold there, say so."),
                true => say!(words, "Measure at which temperature the mixture freezes."),
            })
            .entry("[liquid] coldest"),
        PracticeKind::LittleRoomForIce => Said::new(say!(words, "The liquid may freeze, and the air space is less than what ice takes up."))
            .source(say!(words, "density of ice, from memory"))
            .cure(say!(words, "Drain before frost, or leave a larger air space. Lines and valves freeze first.")),
        PracticeKind::LittleUsable => Said::new(say!(words, "Less than nine tenths of its rated capacity is usable: the rest stays behind at the worst trim."))
            .source(say!(words, "fire service practice: about 90 % of the nominal capacity"))
            .cure(say!(words, "A lower outlet, a sump or a dip tube reaches more; where the floor has several low places, an outlet in each: each draws its own.")),
        PracticeKind::NoEvents => Said::new(say!(words, "The tank moves, but no events are given: what the motion does to it is not covered."))
            .source(say!(words, "the duty of the job"))
            .cure(say!(words, "Say what accelerations the vehicle or boat may see."))
            .entry("[[event]]"),
        PracticeKind::LongWithoutBaffle => Said::new(say!(words, "It is long and has no baffle: part full, the liquid will surge."))
            .source(say!(words, "46 CFR 182.440(a)(8), taken over from fuel tanks of small craft"))
            .cure(say!(words, "Put in a baffle."))
            .entry("[[inner]] kind = \"baffle\""),
        PracticeKind::BafflesNotComputed => Said::new(say!(words, "How far the baffles calm the liquid is not computed here."))
            .source(say!(words, "no published curve of surge against open area was found")),
        PracticeKind::SeamsCross { corners } => Said::new(match corners {
            1 => say!(words, "At 1 corner of the body four or more seams run together."),
            n => say!(words, "At {n} corners of the body four or more seams run together.", n = *n),
        })
        .source(say!(words, "common practice: no crossing of four seams"))
        .cure(say!(words, "Blunt the corner, or accept a weak point there and test it well.")),
        PracticeKind::NoHatch { baffles } => Said::new(match baffles {
            false => say!(words, "There is no hatch: the tank cannot be cleaned or looked into."),
            true => say!(words, "There is no hatch: the tank cannot be cleaned or looked into. Each bay between baffles needs a way in for a hand or a hose."),
        })
        .source(common(words))
        .cure(say!(words, "Put in a hatch."))
        .entry("[[opening]] service = \"hatch\""),
    }
}

/// Vents, overflows and what keeps a tank from being filled too high.
fn filling(words: &Words<'_>, kind: &FillingKind) -> Said {
    const HOLD_MORE: &str = "[[opening]] service = \"overflow\", or [checks] filled_to = \"brim\"";
    match kind {
        FillingKind::SmallVent => Said::new(say!(words, "The largest vent is smaller than the largest fill or draw opening: filling fast builds pressure, drawing fast builds suction."))
            .source(say!(words, "ASTM D1998-13, 7.4: vent at least the larger of the fill or withdrawal connection"))
            .cure(say!(words, "Make the vent larger, or fill with an air gap and draw slowly; never lock a hose into a tank without a way out for the air.")),
        FillingKind::NoOverflow => Said::new(say!(words, "The tank is filled but has no overflow: filled from a hose it is under pressure the moment it is full."))
            .source(common(words))
            .cure(say!(words, "Put in an overflow no smaller than the fill, or leave an air gap at the filler."))
            .entry("[[opening]] service = \"overflow\""),
        FillingKind::KeptBelow { air, overflow } => Said::new(say!(words, "Its strength is checked with the topmost {air} empty, which `{overflow}` keeps so as long as it is open: it takes all that comes in. Plug it for the leak test alone, which is checked brim-full.", air = words.length(*air), overflow = words.given(overflow)))
            .source(no_smaller(words)),
        FillingKind::KeptBelowWhenLevel { air, overflow, more } => Said::new(say!(words, "Its strength is checked with the topmost {air} empty, which is kept so where the tank is filled standing level. Filled at the heel and pitch of its use it takes up to {more} more before `{overflow}` runs, which stand higher than was checked once it is level again.", air = words.length(*air), more = words.volume(*more), overflow = words.given(overflow)))
            .source(say!(words, "geometry: what lies below the upper edge of the overflow, tilted; several are not added up"))
            .cure(say!(words, "Put the overflow lower or nearer the middle, until it lets in no more however the tank stands, or make the tank hold brim-full. Until then fill it standing level alone."))
            .entry(HOLD_MORE),
        FillingKind::NotKeptBelow { air } => Said::new(say!(words, "Its strength is checked with the topmost {air} empty, and nothing keeps it so: no overflow as large as the fill lies wholly below that level. That it holds hangs on whoever fills it.", air = words.length(*air)))
            .source(say!(words, "common practice: what nothing keeps lower is filled to the brim one day"))
            .cure(say!(words, "Put in an overflow, its upper edge at that level or lower and no smaller than the fill, or make the tank hold brim-full."))
            .entry(HOLD_MORE),
        FillingKind::SmallOverflow => Said::new(say!(words, "The overflow is smaller than the fill and cannot carry what comes in."))
            .source(no_smaller(words))
            .cure(say!(words, "Make the overflow at least as large as the fill.")),
    }
}

fn room_entry(said: RoomSaid) -> &'static str {
    match said {
        RoomSaid::Dry => "[[dry]] between",
        RoomSaid::Compartment => "[[compartment]] between",
    }
}

fn bearing_name(words: &Words<'_>, bearing: Bearing) -> Text {
    match bearing {
        Bearing::Rail => say!(words, "a rail"),
        Bearing::Strap => say!(words, "a strap"),
        Bearing::Foot => say!(words, "a foot"),
        Bearing::FloorOfSpace => say!(words, "the floor of the space"),
    }
}

fn common(words: &Words<'_>) -> Text {
    say!(words, "common practice")
}

fn no_smaller(words: &Words<'_>) -> Text {
    say!(
        words,
        "common practice: an overflow is no smaller than the inlet"
    )
}

fn payload(words: &Words<'_>) -> Text {
    say!(words, "the payload left, as the job states it")
}

fn rooms(words: &Words<'_>) -> Text {
    say!(words, "compartments worked out from the panels")
}
