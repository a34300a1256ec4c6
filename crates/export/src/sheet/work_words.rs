//! What an operation does to the work, in a maker's words.

mod pieces;

use super::side::{beside, side};
use super::words::{drilled, letter};
use pieces::piece;
use quillet_geometry::Edge;
use quillet_model::{End, Part, Units};
use quillet_plan::{
    Bearing, Home, InsideCut, InsideShape, JoinedIn, Operation, OutsidePass, Pass, Plan, ThreadCut,
    Threading, TrialFit, TurnCut, TurnKind, Work,
};

/// What is done: `drill Ø12, to 54 from the mouth`.
#[expect(
    clippy::too_many_lines,
    reason = "an arm a kind of work: it is read as a table"
)]
pub(super) fn work(plan: &Plan, part: &Part, operation: &Operation, units: Units) -> String {
    let name = |end: End| part.end_name(end).to_owned();
    let work = &operation.work;
    match work {
        Work::Saw { .. }
        | Work::FacePiece(_)
        | Work::Socket { .. }
        | Work::Spigot { .. }
        | Work::GlueUp { .. }
        | Work::Polish {
            before_gluing: true,
            ..
        } => piece(part, work, units),
        Work::JoinIn(joined) => joined_in(part, joined, units),
        Work::Round { dia } => format!("turn round between centres to Ø{}", units.plain(*dia)),
        Work::TakeHold => "take hold anew".into(),
        Work::Face { end, .. } => format!("face the {}", name(*end)),
        Work::Centre { end, in_nub: true } => {
            format!("centre the nub at the {} for the tail centre", name(*end))
        }
        Work::Centre { end, in_nub: false } => format!("centre the {}", name(*end)),
        Work::Inside(cut) => inside(part, cut, units),
        Work::Turn(cut) => turn(part, cut, units),
        Work::BreakCorner { end, edge } => match edge {
            Edge::Round(radius) => format!("round the {} to R{}", name(*end), units.plain(*radius)),
            Edge::Chamfer(leg) => format!("chamfer the {} {} × 45°", name(*end), units.plain(*leg)),
        },
        Work::Thread(cut) => thread(part, cut, units),
        Work::Support { plug } => format!(
            "put plug {} into the bore: it keeps the thin tenon round",
            letter(*plug)
        ),
        Work::Try(trial) => trial_fit(part, trial, units),
        Work::Outside(pass) => outside(plan, pass, units),
        Work::PartOff {
            end,
            width,
            shaping,
            ..
        } => {
            let shaping = match shaping {
                true => ", shaping the end as it comes free",
                false => "",
            };
            let (end, width) = (name(*end), units.plain(*width));
            format!("part off at the {end}, cut {width} wide{shaping}")
        }
        Work::RemoveNub { end, over } if !over.is_positive() => {
            format!("take the nub off and sand the {}", name(*end))
        }
        Work::RemoveNub { end, over } => {
            let (end, over) = (name(*end), units.plain(*over));
            format!("take the nub off and finish the {end}, leaving {over} on diameter")
        }
        Work::Side { cut, places } => {
            let words = side(part, *cut, *places, operation.tool, units);
            words.map_or_else(String::new, |it| it.line())
        }
        Work::Beside { holes, places, .. } => {
            let words = beside(part, *holes, *places, units);
            words.map_or_else(String::new, |it| it.line())
        }
        Work::Polish { .. } => "sand through the grits and polish".into(),
    }
}

/// What goes in before the outside is turned: `glue bush into the mouth, gap 0.1 on diameter`.
fn joined_in(part: &Part, joined: &JoinedIn, units: Units) -> String {
    let verb = if joined.pressed { "press" } else { "glue" };
    let gap = joined.gap.map_or_else(String::new, |gap| {
        format!(", gap {} on diameter", units.plain(gap))
    });
    let to = match &joined.at {
        Some(at) if at.over => format!("over the {} of {}", at.end, at.part),
        Some(at) => format!("into the {} of {}", at.end, at.part),
        None => format!("into the {}", part.end_name(joined.end)),
    };
    format!("{verb} {} {to}{gap}", joined.part)
}

fn turn(part: &Part, cut: &TurnCut, units: Units) -> String {
    let kind = match cut.kind {
        TurnKind::Tenon => "tenon",
        TurnKind::Relief => "relief",
        TurnKind::Groove => "groove",
        TurnKind::ThreadLand => "land for the thread",
    };
    let (from, to) = (units.plain(cut.from), units.plain(cut.to));
    let end = part.end_name(cut.end);
    format!(
        "turn the {kind} Ø{}, {from} to {to} from the {end}",
        units.plain(cut.dia)
    )
}

/// Stop and try the mate by hand.
fn trial_fit(part: &Part, trial: &TrialFit, units: Units) -> String {
    let copy = match trial.copy {
        true => "the mandrel that copies ",
        false => "",
    };
    let side = match trial.goes_in {
        true => "on",
        false => "in",
    };
    let turns = trial
        .turns
        .map(|turns| format!("; count the turns from where it catches: {turns:.1} expected"));
    let home = trial.home.as_ref().map(|it| home(it, units));
    format!(
        "stop and test: try {copy}the {} by hand {side} the {}{}{}",
        trial.mate,
        part.end_name(trial.end),
        turns.unwrap_or_default(),
        home.unwrap_or_default(),
    )
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
        Home::Level => "; home when its far face is level with the mouth".into(),
        Home::StandsOut => "; a press fit starts square and does not go home by hand".into(),
    }
}

fn bearing(it: &Bearing, units: Units) -> String {
    match &it.face {
        Some(face) => format!("the {}'s {face}", it.part),
        None => format!("the {} at {}", it.part, units.plain(it.at)),
    }
}
