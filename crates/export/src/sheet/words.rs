//! Operations in a maker's words.

use super::content::{RouteCheck, RouteLine};
use quillet_geometry::{Edge, Length, Limits};
use quillet_model::{DrillName, End, Part, Units};
use quillet_plan::{
    Availability, Bearing, Grip, Home, InsideCut, InsideShape, Mandrel, MandrelKind, Measured,
    Note, Operation, OutsidePass, Pass, Plan, Route, Speed, SpeedLimit, Substitute, TailSupport,
    ThreadCut, Threading, Tool, TurnKind, Work, Workholding,
};

/// Limits of size; those nearer together than a twentieth of a millimetre to the micrometre, since
/// hundredths would run them into one.
pub(super) fn limits(limits: Limits, units: Units) -> String {
    let (least, most) = (limits.min(), limits.max());
    match most - least < NARROW {
        true => format!("{} to {}", units.fine(least), units.fine(most)),
        false => format!("{} to {}", units.plain(least), units.plain(most)),
    }
}

const NARROW: Length = Length::from_nm(50_000);

/// The numbered lines of a route.
pub(super) fn route(plan: &Plan, route: &Route, units: Units) -> Vec<RouteLine> {
    let mut held = None;
    let lines = route.operations.iter().enumerate().map(|(at, operation)| {
        let changed = held != Some(operation.hold);
        held = Some(operation.hold);
        let mut line = line(plan, &route.part, operation, units);
        line.number = at + 1;
        line.hold = changed.then(|| hold(&route.part, operation.hold, units));
        line
    });
    lines.collect()
}

fn line(plan: &Plan, part: &Part, operation: &Operation, units: Units) -> RouteLine {
    let mut how = Vec::new();
    how.extend(operation.tool.map(|it| tool(it, units)));
    how.extend(depth(part, operation, units));
    if let Some(tailstock) = &operation.tailstock {
        let stops: Vec<String> = tailstock.stops.iter().map(|it| units.plain(*it)).collect();
        how.push(format!(
            "tailstock from touch: {}",
            stops.join(", then set anew and ")
        ));
    }
    if operation.by_hand {
        how.push("by hand, spindle locked, power off".into());
    }
    how.extend(operation.speed.as_ref().map(speed));
    if let Some(found) = operation.single_point {
        how.push(format!(
            "{} free beyond full form: {} s to stop",
            units.plain(found.run_out),
            crate::write::number(found.reaction_s, 0)
        ));
    }
    how.extend(operation.peck.map(|peck| {
        format!(
            "{} free, then {} of at most {}, withdrawn each time",
            units.plain(peck.free),
            count(peck.count as usize, "peck"),
            units.plain(peck.step)
        )
    }));
    RouteLine {
        number: 0,
        what: work(plan, part, &operation.work, units),
        hold: None,
        how,
        notes: operation.notes.iter().map(|it| note(it, units)).collect(),
        checks: operation
            .checks
            .iter()
            .map(|it| check(part, it, units))
            .collect(),
        gate: matches!(operation.work, Work::Try(_)),
    }
}

fn work(plan: &Plan, part: &Part, work: &Work, units: Units) -> String {
    let name = |end: End| part.end_name(end).to_owned();
    let piece = |index: usize| {
        let of = part
            .blanks()
            .get(index)
            .map_or("blank", |piece| &piece.stock.material.name);
        if part.blanks().len() > 1 {
            format!("piece {} ({of})", index + 1)
        } else {
            format!("the {of} blank")
        }
    };
    match work {
        Work::Saw {
            piece: index,
            length,
        } => format!("saw {} to {}", piece(*index), units.plain(*length)),
        Work::FacePiece(face) => {
            let to = face.to.map_or_else(
                || "until clean".to_owned(),
                |to| format!("to station {}", units.plain(to)),
            );
            format!("face {} square for the joint, {to}", piece(face.piece))
        }
        Work::Socket {
            piece: index,
            dia,
            depth,
            leads,
        } => {
            let what = if *leads { "drill first for" } else { "bore" };
            format!(
                "{what} the socket in {}: Ø{}, {} deep",
                piece(*index),
                units.plain(*dia),
                units.plain(*depth)
            )
        }
        Work::Spigot {
            piece: index,
            dia,
            length,
        } => {
            format!(
                "turn the spigot of {}: Ø{} for {}",
                piece(*index),
                units.plain(*dia),
                units.plain(*length)
            )
        }
        Work::GlueUp {
            piece: index,
            gap,
            rubbed,
        } => {
            let rubbed = if *rubbed {
                ", its face rubbed flat on a plate"
            } else {
                ""
            };
            let gap = gap.map_or_else(String::new, |it| {
                format!(", gap {} on diameter", units.plain(it))
            });
            format!("glue {} to what is before it{gap}{rubbed}", piece(*index))
        }
        Work::Round { dia } => format!("turn round between centres to Ø{}", units.plain(*dia)),
        Work::TakeHold => "take hold anew".into(),
        Work::Face { end, .. } => format!("face the {}", name(*end)),
        Work::Centre { end, in_nub: true } => {
            format!("centre the nub at the {} for the tail centre", name(*end))
        }
        Work::Centre { end, in_nub: false } => format!("centre the {}", name(*end)),
        Work::Inside(cut) => inside(part, cut, units),
        Work::Turn(cut) => {
            let kind = match cut.kind {
                TurnKind::Tenon => "tenon",
                TurnKind::Relief => "relief",
                TurnKind::Groove => "groove",
                TurnKind::ThreadLand => "land for the thread",
            };
            let reach = format!(
                "{} to {} from the {}",
                units.plain(cut.from),
                units.plain(cut.to),
                name(cut.end)
            );
            format!("turn the {kind} Ø{}, {reach}", units.plain(cut.dia))
        }
        Work::BreakCorner {
            end,
            edge: Edge::Round(radius),
        } => {
            format!("round the {} to R{}", name(*end), units.plain(*radius))
        }
        Work::BreakCorner {
            end,
            edge: Edge::Chamfer(leg),
        } => {
            format!("chamfer the {} {} × 45°", name(*end), units.plain(*leg))
        }
        Work::Thread(cut) => thread(part, cut, units),
        Work::Support { plug } => format!(
            "put plug {} into the bore: it keeps the thin tenon round",
            letter(*plug)
        ),
        Work::Try(gate) => {
            let copy = if gate.copy {
                "the mandrel that copies "
            } else {
                ""
            };
            let turns = gate.turns.map(|turns| {
                format!("; count the turns from where it catches: {turns:.1} expected")
            });
            format!(
                "stop and test: try {copy}the {} by hand {} the {}{}{}",
                gate.mate,
                if gate.goes_in { "on" } else { "in" },
                name(gate.end),
                turns.unwrap_or_default(),
                gate.home
                    .as_ref()
                    .map(|it| home(it, units))
                    .unwrap_or_default(),
            )
        }
        Work::Outside(pass) => outside(plan, pass, units),
        Work::PartOff {
            end,
            width,
            shaping,
            ..
        } => {
            let shaping = if *shaping {
                ", shaping the end as it comes free"
            } else {
                ""
            };
            format!(
                "part off at the {}, cut {} wide{shaping}",
                name(*end),
                units.plain(*width)
            )
        }
        Work::RemoveNub { end, over } => {
            format!(
                "take the nub off and finish the {}, leaving {} on diameter",
                name(*end),
                units.plain(*over)
            )
        }
        Work::Polish {
            before_gluing: true,
            ..
        } => "sand and polish before it is glued".into(),
        Work::Polish { .. } => "sand through the grits and polish".into(),
    }
}

fn inside(part: &Part, cut: &InsideCut, units: Units) -> String {
    let reach = match (cut.through, cut.from.is_positive()) {
        (true, _) => "right through".to_owned(),
        (false, true) => format!(
            "{} to {} from the {}",
            units.plain(cut.from),
            units.plain(cut.to),
            part.end_name(cut.end)
        ),
        (false, false) => format!(
            "to {} from the {}",
            units.plain(cut.to),
            part.end_name(cut.end)
        ),
    };
    match cut.shape {
        InsideShape::Drill {
            dia, name, opening, ..
        } => {
            let way = if opening {
                "open the way with a"
            } else {
                "drill"
            };
            let tail = if opening { " drill" } else { "" };
            format!("{way} {}{tail}, {reach}", drilled(dia, name, units))
        }
        InsideShape::Bore { dia } => format!("bore Ø{}, {reach}", units.plain(dia)),
        InsideShape::Ream { dia } => format!("ream Ø{}, {reach}", units.plain(dia)),
        InsideShape::Recess { dia } => format!("recess Ø{}, {reach}", units.plain(dia)),
        InsideShape::Taper { from_dia, to_dia } => {
            format!(
                "taper Ø{} to Ø{}, {reach}",
                units.plain(from_dia),
                units.plain(to_dia)
            )
        }
        InsideShape::Countersink { dia, angle } => {
            format!(
                "countersink the {} {angle} to Ø{}",
                part.end_name(cut.end),
                units.plain(dia)
            )
        }
    }
}

fn thread(part: &Part, cut: &ThreadCut, units: Units) -> String {
    let way = match cut.method {
        Threading::Tap => "tap",
        Threading::Die => "cut by die",
        Threading::SinglePoint => "single-point",
    };
    let side = if cut.inside { "inside" } else { "outside" };
    let reach = format!(
        "full form {} to {} from the {}",
        units.plain(cut.from),
        units.plain(cut.to),
        part.end_name(cut.end)
    );
    format!("{way} {} {side}, {reach}", cut.thread.thread)
}

fn outside(plan: &Plan, pass: &OutsidePass, units: Units) -> String {
    let spans: Vec<String> = pass
        .spans
        .iter()
        .map(|(from, to)| format!("{} to {}", units.plain(*from), units.plain(*to)))
        .collect();
    let spans = spans.join(", ");
    let mut over = match pass.over.is_positive() {
        true => format!(", {} over on diameter", units.plain(pass.over)),
        false => String::new(),
    };
    if let Some((core, nub)) = pass.core.and_then(|core| Some((core, core.nub?))) {
        over += &format!(
            ", stop at Ø{}; nub Ø{} × {}",
            units.plain(core.dia),
            units.plain(nub.dia),
            units.plain(nub.length)
        );
    }
    match pass.pass {
        Pass::Rough => {
            format!("rough the outside at the stations of the caliper table ({spans}){over}")
        }
        Pass::Finish => format!("turn the outside to the template ({spans}){over}"),
        Pass::Blend => {
            let with = pass.with.and_then(|it| plan.routes.get(it));
            let with = with.map_or_else(
                || "its mate".to_owned(),
                |it| format!("the {}", it.part.name.text),
            );
            format!("joined with {with}: blend the two outsides into each other{over}")
        }
    }
}

pub(super) fn hold(part: &Part, hold: Workholding, units: Units) -> String {
    match hold {
        Workholding::Bench => "at the bench".into(),
        Workholding::Pieces(held) => {
            let what = match held.from == held.to {
                true => format!("piece {} by itself", held.to + 1),
                false => format!(
                    "pieces {} to {}, glued, by piece {}",
                    held.from + 1,
                    held.to + 1,
                    held.gripped + 1
                ),
            };
            let rod = if held.on_rod {
                ", still on its rod and sawn off after"
            } else {
                ""
            };
            format!(
                "{what} in a collet or chuck of {}: {} gripped, {} standing out{rod}",
                units.plain(held.size),
                units.plain(held.grip),
                units.plain(held.overhang)
            )
        }
        Workholding::Centres => "between centres".into(),
        Workholding::Collet(grip) => collet(part, &grip, units),
        Workholding::Mandrel(mount) => {
            let centre = match mount.tail {
                TailSupport::Free => String::new(),
                TailSupport::Centre => ", tail centre up".into(),
                TailSupport::BullNose => ", a bull-nose centre in the mouth".into(),
                TailSupport::Plug(plug) => format!(", tail centre in plug {}", letter(plug)),
            };
            format!(
                "on mandrel {} by the {}{centre}",
                letter(mount.mandrel),
                part.end_name(mount.end)
            )
        }
        Workholding::Joined { collet } => format!(
            "joined with its mate, the nub in a collet of Ø{}, the other on the tail centre",
            units.plain(collet)
        ),
    }
}

fn collet(part: &Part, grip: &Grip, units: Units) -> String {
    format!(
        "in a collet of Ø{}: {} gripped, {} free, {} standing out",
        units.plain(grip.dia),
        units.plain(grip.length()),
        part.end_name(grip.free),
        units.plain(grip.overhang)
    )
}

/// A tool by its name, as the lists call it.
pub fn tool(tool: Tool, units: Units) -> String {
    match tool {
        Tool::Saw => "saw".into(),
        Tool::CentreDrill => "centre drill".into(),
        Tool::Drill { dia, name } => format!("drill {}", drilled(dia, name, units)),
        Tool::FlatDrill { dia } => {
            format!("flat-bottomed drill or counterbore Ø{}", units.plain(dia))
        }
        Tool::BoringBar { enters } => format!("boring bar that enters Ø{}", units.plain(enters)),
        Tool::Reamer { dia } => format!("reamer Ø{}", units.plain(dia)),
        Tool::Countersink { angle_mdeg } => {
            format!(
                "countersink {}°",
                crate::write::number(angle_mdeg as f64 / 1000.0, 3)
            )
        }
        Tool::RecessingTool => "recessing tool".into(),
        Tool::Tap { thread } => format!("tap {thread}"),
        Tool::Die { thread } => format!("die {thread}"),
        Tool::ThreadingTool { inside: true } => "inside threading tool".into(),
        Tool::ThreadingTool { inside: false } => "outside threading tool".into(),
        Tool::TenonCutter { bushing } => {
            format!("tenon cutter with bushing Ø{}", units.plain(bushing))
        }
        Tool::PartingTool => "parting tool".into(),
        Tool::TurningTool => "turning tool".into(),
        Tool::Abrasives => "abrasives and polish".into(),
        Tool::Glue => "glue".into(),
        Tool::Collet { dia } => format!("collet Ø{}", units.plain(dia)),
        Tool::Mandrel { index } => format!("mandrel {}", letter(index)),
    }
}

/// Whether a tool is at hand.
pub(super) fn standing(standing: Availability) -> &'static str {
    match standing {
        Availability::OnBench => "on the bench",
        Availability::ToBuy => "to be had",
        Availability::ToMake => "to be made",
        Availability::Needed => "",
    }
}

/// What does instead of a tool that is not at hand, and what that costs.
pub(super) fn substitute(it: Substitute, units: Units) -> String {
    let size = |dia: Length, wider: Length| {
        let drill = drilled(dia, DrillName::Diameter, units);
        let by = units.plain(wider.abs());
        match (wider.is_positive(), wider.is_negative()) {
            (true, _) => format!("drill {drill}, {by} wider"),
            (_, true) => format!("drill {drill}, {by} narrower"),
            _ => format!("drill {drill}"),
        }
    };
    match it {
        Substitute::Drill { dia, wider } => size(dia, wider),
        Substitute::GroundFlat { dia, wider } => {
            format!("{}, ground flat across", size(dia, wider))
        }
        Substitute::Chuck => "a chuck with jaws: it marks, and runs less true".into(),
    }
}

/// A drill by its size, and by its name where it is called by one; in inches by its name alone.
pub(super) fn drilled(dia: Length, name: DrillName, units: Units) -> String {
    match units {
        Units::Millimetres => {
            let name = name.name().map(|name| format!(" ({name})"));
            format!("Ø{}{}", units.plain(dia), name.unwrap_or_default())
        }
        Units::Inches => units.drill(dia),
    }
}

/// Mandrels are lettered, for operations are numbered.
pub(super) fn letter(index: usize) -> String {
    u8::try_from(index).ok().filter(|it| *it < 26).map_or_else(
        || format!("M{}", index + 1),
        |it| char::from(b'A' + it).to_string(),
    )
}

/// A mandrel's sort.
pub(super) fn mandrel_kind(mandrel: &Mandrel) -> &'static str {
    match mandrel.kind {
        MandrelKind::Male => "male thread",
        MandrelKind::Female => "female thread",
        MandrelKind::Spigot => "plain spigot",
        MandrelKind::Stepped => "stepped",
        MandrelKind::Plug => "plug",
    }
}

/// What to see when a mate is home.
fn home(home: &Home, units: Units) -> String {
    match home {
        Home::Bears { own, mate } => format!(
            "; home when {} bears on {} all round, no light between",
            bearing(own, units),
            bearing(mate, units)
        ),
        Home::Shoulder => "; home when the face bears on its shoulder all round".into(),
        Home::GoesIn(deep) => format!("; home {} in, held by friction alone", units.plain(*deep)),
        Home::StandsOut => "; a press fit starts square and does not go home by hand".into(),
    }
}

fn bearing(it: &Bearing, units: Units) -> String {
    match &it.face {
        Some(face) => format!("the {}'s {face}", it.part),
        None => format!("the {} at {}", it.part, units.plain(it.at)),
    }
}

fn depth(part: &Part, operation: &Operation, units: Units) -> Option<String> {
    let depth = operation.depth?;
    let corner = format!("{} to the corner", units.plain(depth.to_corner));
    let point = depth
        .to_point
        .map(|it| format!(", {} to the point", units.plain(it)));
    Some(format!(
        "depth {corner}{} from the {}",
        point.unwrap_or_default(),
        part.end_name(depth.from)
    ))
}

fn speed(speed: &Speed) -> String {
    // To the nearest ten: nobody sets a lathe closer.
    let round = |rev: f64| ((rev / 10.0).round() * 10.0).max(10.0);
    let span = |from: f64, to: f64| match (round(from), round(to)) {
        (from, to) if from == to => format!("{from}"),
        (from, to) => format!("{from} to {to}"),
    };
    let lathe: Vec<String> = speed
        .settings_rev_min
        .iter()
        .map(|(from, to)| span(*from, *to))
        .collect();
    let rev = match (speed.set_rev_min, lathe.is_empty()) {
        (Some(set), _) => format!("{}", round(set)),
        (None, true) => span(speed.low_rev_min, speed.high_rev_min),
        (None, false) => lathe.join(" or "),
    };
    let limited = match speed.limited {
        None | Some(SpeedLimit::Capped) => "",
        Some(SpeedLimit::TooSlow) => " (the lathe's fastest: slow, not wrong)",
        Some(SpeedLimit::TooFast) => " (the lathe's slowest: faster than the material likes)",
    };
    format!("{rev} rev/min{limited}")
}

fn note(note: &Note, units: Units) -> String {
    match note {
        Note::LeftHandUnscrews => {
            "left-hand thread: forward rotation unscrews it; run in reverse, lightly".into()
        }
        Note::LeftHandThread => "left-hand thread: tap and die go on anticlockwise; a single point is fed from the headstock outward".into(),
        Note::ReverseUnscrews => "do not sand in reverse: it unscrews".into(),
        Note::IndexStarts {
            starts,
            pitch,
            turn_deg,
        } => format!(
            "{starts} starts: index {} by the compound, or {}° of spindle, between them",
            units.plain(*pitch),
            crate::write::number(*turn_deg, 2)
        ),
        Note::DubLips => {
            "a drill in a hole already there grabs: dub its lips, or hold it back".into()
        }
        Note::FlatBottomed => "flat bottom: no cone beyond the depth".into(),
        Note::BreaksThrough => "it breaks through: ease the feed".into(),
        Note::LetCool => "withdraw often and let it cool; a hot drill grabs".into(),
        Note::Cure => {
            "let the glue cure 24 h before any cut, or as its own data sheet says".into()
        }
        Note::CleanLine => "wipe the glue line clean, and keep it out of the bore".into(),
        Note::LineUp => "mark both and line the grain or pattern up before it sets".into(),
        Note::Degrease => "clean and roughen before gluing".into(),
        Note::SpeedUnknown => "no cutting speed is known for this material: begin slowly".into(),
        Note::ByCrank => "no step of the lathe leaves time to stop: turn the spindle by the crank, power off".into(),
        Note::HoldWork => {
            "hold the work while the tool or the trial piece backs out, else it unscrews".into()
        }
        Note::CentreBack => {
            "tail centre back, light cuts; in a collet that is drawn up or screwed on, never in a bare taper".into()
        }
        Note::UntilClean => "until clean".into(),
        Note::LongWithNub { length } => {
            format!("to {} over all, the nub counted", units.plain(*length))
        }
        Note::ShankGoesHome { dia, stays_out } => {
            let out = stays_out.map(|it| format!(", one of Ø{} does not", units.plain(it)));
            let goes = units.plain(*dia);
            format!("a shank or pin of Ø{goes} goes home{}", out.unwrap_or_default())
        }
        Note::BeginsAt { clockwise } => {
            format!("begin it {clockwise} clockwise of the mark, looking at the end")
        }
        Note::Clock {
            positions,
            per_ten_deg,
        } => format!(
            "{positions} positions in which pattern and clip can line up; facing {} off the shoulder turns it 10°",
            units.plain(*per_ten_deg)
        ),
    }
}

fn check(part: &Part, check: &quillet_plan::Inspection, units: Units) -> RouteCheck {
    let name = |end: End| part.end_name(end).to_owned();
    let what = match check.what {
        Measured::Outside { end, at } => format!("Ø at {} from the {}", units.plain(at), name(end)),
        Measured::Hole { end } => format!("Ø of the hole at the {}", name(end)),
        Measured::Depth { end } => format!("depth from the {}", name(end)),
        Measured::Point { end } => format!("depth at the point from the {}", name(end)),
        Measured::Length => "length over all".into(),
    };
    RouteCheck {
        what: format!("{what}, {}", units.plain(check.nominal)),
        limits: limits(check.limits, units),
    }
}

/// A count with what is counted: `one peck`, `3 pecks`.
pub(super) fn count(number: usize, what: &str) -> String {
    if number == 1 {
        format!("one {what}")
    } else {
        format!("{number} {what}s")
    }
}
