//! What can hurt, and what is done at the end: only what applies to this pen.

use super::pockets::{has_magnets, steps};
use quillet_model::{PartKind, Pen};
use quillet_plan::{Note, Plan, Tool, Work, Workholding};
use quillet_standards::material::Family;
use quillet_syntax::ast::Verb;

/// The cautions that apply to a pen. All defer to manual, data sheets, local rules and training.
#[expect(clippy::too_many_lines, reason = "one list")]
pub(super) fn cautions(pen: &Pen, plan: &Plan) -> Vec<String> {
    let is = |names: &[&str]| materials(pen).iter().any(|it| names.contains(it));
    let family = |family: Family| families(pen).contains(&family);
    let works = || plan.routes.iter().flat_map(|it| &it.operations);
    let by_hand = works().any(|it| matches!(it.tool, Some(Tool::Tap { .. } | Tool::Die { .. })));
    let glued = works().any(|it| matches!(it.work, Work::GlueUp { .. }))
        || pen.joints.iter().any(|it| it.verb == Verb::Glue)
        || !pen.assembly.pockets.is_empty();
    let drilled = works().any(|it| matches!(it.tool, Some(Tool::Drill { .. })));
    let sides = works().any(|it| matches!(it.work, Work::Side { .. } | Work::Beside { .. }));
    let collet =
        works().any(|it| matches!(it.hold, Workholding::Collet(_) | Workholding::Mandrel(_)));
    let backs_out = works().any(|it| it.notes.contains(&Note::HoldWork));
    let nub = works().any(|it| matches!(it.work, Work::RemoveNub { .. }));
    let single_point = works().any(|it| it.single_point.is_some());
    let cast = is(&["polyester-resin", "epoxy", "urethane-resin", "flaked-resin"]);
    let cautions = [
        (
            true,
            "Machine’s manual, data sheets of material and glue, local rules and training come before this sheet.",
        ),
        (
            true,
            "Eyes, lungs, hearing: face shield, mask for fine dust, extraction, ear protection.",
        ),
        (
            true,
            "Chuck key out; sleeves, hair, jewellery, gloves away; speed up from slow, never above what lathe and holder are rated for.",
        ),
        (by_hand, "Tap and die by hand, spindle locked, power off."),
        (
            backs_out,
            "On a mandrel hold the work while a tap or trial piece backs out: else it unscrews.",
        ),
        (
            nub,
            "Nub off: centre back, light cuts, collet drawn up or screwed on, never in a bare taper.",
        ),
        (
            single_point,
            "Single point: where the half-nuts cannot be opened, turn the spindle by the crank, power off.",
        ),
        (
            sides,
            "Before anything comes from the side or beside the axis: spindle locked, the lathe’s power off; take the lock out before it is started again.",
        ),
        (
            collet,
            "Tool rest off to sand; polish with paper, never with cloth round work or hand.",
        ),
        (
            drilled,
            "A hot drill grabs: withdraw, clear the chips, let it cool.",
        ),
        (
            is(&["acrylic"]),
            "No alcohol or ammonia on acrylic: it crazes.",
        ),
        (
            is(&["celluloid"]),
            "Celluloid burns fiercely, without air too: sharp tools, no heat, no spark, no dust left lying; water at hand, for smothering fails.",
        ),
        (
            family(Family::Ebonite),
            "Ebonite holds sulphur: its dust irritates; keep it off skin, silver and brass.",
        ),
        (
            family(Family::Wood),
            "Wood dust sensitises and some harms for life: mask and extraction for every kind.",
        ),
        (
            is(&["titanium", "titanium-grade-5"]),
            "Titanium fines burn: no water on them; a dry-powder agent for metal fires at hand.",
        ),
        (
            family(Family::Metal),
            "Metal swarf cuts: brush or hook, never the hand.",
        ),
        (
            cast,
            "Casting under pressure only in vessels made and rated for it.",
        ),
        (
            glued,
            "Glue and solvent: read their sheets, gloves fit for them, air the room.",
        ),
        (
            magnets(pen) || has_magnets(pen),
            "Loose magnets: away from children and pacemakers.",
        ),
    ];
    let apply = cautions.into_iter().filter(|it| it.0);
    apply.map(|it| it.1.to_owned()).collect()
}

/// A test of a finished pen.
#[derive(Clone, Debug, serde::Serialize)]
pub struct PenTest {
    /// What is done.
    pub what: String,
    /// What must be seen.
    pub wanted: String,
    /// For how long, where it takes time.
    pub time: Option<String>,
}

/// What is done before it is put together.
pub(super) fn finishing(pen: &Pen) -> Vec<String> {
    let mut all = vec!["Wash all parts in mild soap; let them dry".to_owned()];
    all.extend(steps(pen));
    all.push("Put together dry and look: seams, pattern".into());
    if fills(pen) {
        all.push(match closes(pen) {
            true => "Set nib and feed; look that the nib stays clear in the cap".into(),
            false => "Set nib and feed".into(),
        });
    }
    all
}

/// The tests of a pen: only what it holds ink in is tested for leaks.
pub(super) fn tests(pen: &Pen) -> Vec<PenTest> {
    let test = |what: &str, wanted: &str, time: Option<&str>| PenTest {
        what: what.into(),
        wanted: wanted.into(),
        time: time.map(str::to_owned),
    };
    let mut all = Vec::new();
    if fills(pen) {
        all.push(test(
            "Filled with water, nib down over dry tissue, not touching it",
            "no drop",
            Some("60 min"),
        ));
        if closes(pen) {
            all.push(test("Nib up, capped", "dry at the mouth", Some("60 min")));
        }
        all.push(test(
            "Fill with ink and write a page",
            "no skip, no flood",
            None,
        ));
        if closes(pen) {
            all.push(test(
                "Cap off and on ten times",
                "nib dry, turns as drawn",
                None,
            ));
        }
        return all;
    }
    all.push(test(
        "Write a page",
        "it stands firm, nothing works loose",
        None,
    ));
    all
}

/// Whether it has a cap.
fn closes(pen: &Pen) -> bool {
    pen.joints.iter().any(|it| it.verb == Verb::Close)
}

/// Whether it holds ink that can leak.
fn fills(pen: &Pen) -> bool {
    pen.fill.is_some() || pen.parts.iter().any(|it| it.holds_ml().is_some())
}

fn families(pen: &Pen) -> Vec<Family> {
    let pieces = pen.parts.iter().flat_map(|it| it.blanks());
    pieces.map(|it| it.stock.material.kind.family()).collect()
}

fn materials(pen: &Pen) -> Vec<&str> {
    let pieces = pen.parts.iter().flat_map(|it| it.blanks());
    pieces.map(|it| it.stock.material.kind.kind()).collect()
}

/// A bought part that calls itself a magnet.
fn magnets(pen: &Pen) -> bool {
    pen.parts.iter().any(|part| {
        let title = part.title().map_or("", |it| &it.text);
        let called = |words: &str| words.to_lowercase().contains("magnet");
        matches!(part.kind, PartKind::Bought(_)) && (called(&part.name.text) || called(title))
    })
}
