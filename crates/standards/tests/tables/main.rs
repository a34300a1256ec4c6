//! The manual's tables, `tables.md`, written from the data; the test says when they are stale.
//!
//! `QUILLET_WRITE_TABLES=1 cargo test -p quillet-standards --test tables` writes them anew.

mod page;

use page::{Page, optional, span};
use std::path::Path;

use quillet_geometry::Length;
use quillet_standards::material::{Family, Operation, Range};
use quillet_standards::thread::{Clip, KnownThread, ThreadForm, ThreadSide};
use quillet_standards::{bought, drill, material, thread};

#[test]
fn the_manuals_tables_are_those_of_the_data() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tables.md");
    let wanted = tables();
    if std::env::var_os("QUILLET_WRITE_TABLES").is_some() {
        std::fs::write(&path, &wanted).unwrap();
    }
    let found = std::fs::read_to_string(&path).unwrap_or_default();
    let (found, wanted): (Vec<_>, Vec<_>) = (found.lines().collect(), wanted.lines().collect());
    let stale =
        (0..found.len().max(wanted.len())).find(|&line| found.get(line) != wanted.get(line));
    assert_eq!(
        stale.map(|line| line + 1),
        None,
        "tables.md is stale from this line on; QUILLET_WRITE_TABLES=1 cargo test -p quillet-standards --test tables writes it anew"
    );
}

fn tables() -> String {
    let mut page = Page(String::from(
        "# Tables\n\nSizes in millimetres unless a column says otherwise. Written from `data/` by the test in\n`tests/tables/`; change the data, not this page. Thresholds and choices marked \"common practice,\nno published source\" are defaults that a maker may override.\n",
    ));
    threads(&mut page);
    tap_leads(&mut page);
    run_outs(&mut page);
    drills(&mut page);
    materials(&mut page);
    speeds(&mut page);
    families(&mut page);
    bought_parts(&mut page);
    page.0
}

fn threads(page: &mut Page) {
    page.section("Threads");
    page.render("Limits are those of 6g and 6H, 2A and 2B in inches; a star marks limits computed by formula where the standard prints none. The radius is that of the plain cylinder of equal volume. Percent of thread counts 3H/4 as 100.");
    page.head(&[
        "thread",
        "listed",
        "P",
        "d2",
        "D1",
        "d3",
        "equal-volume radius",
        "tenon",
        "hole",
        "tap drill",
        "percent",
        "best wire",
    ]);
    for known in thread::known() {
        let form = known.form();
        let outside = form
            .external_limits(form.class(ThreadSide::External))
            .expect("its own class is known");
        let inside = form
            .internal_limits(form.class(ThreadSide::Internal))
            .expect("its own class is known");
        let star = match outside.from.and(inside.from).word() {
            "formula" if !form.is_inch() => " *",
            _ => "",
        };
        let tap = form.tap_drill();
        page.row(&[
            known.designation(),
            listed(known),
            &form.pitch().mm_text(3),
            &form.pitch_diameter().mm_text(3),
            &form.minor_diameter().mm_text(3),
            &form.root_diameter().mm_text(3),
            &format!("{:.4}", form.equal_volume_radius_mm(Clip::Full)),
            &format!("{}{star}", span(outside.major)),
            &format!("{}{star}", span(inside.minor)),
            &tap.diameter.mm_text(2),
            &format!("{:.0}", tap.percent.of_3h4),
            &form.best_wire().mm_text(3),
        ]);
    }
    page.sources(thread::known().map(|known| known.source().text()));
}

fn listed(known: &KnownThread) -> &'static str {
    if known.source().is_practice() {
        "usual on pens"
    } else if known.form().is_inch() {
        "ASME B1.1"
    } else {
        "ISO 261"
    }
}

fn tap_leads(page: &mut Page) {
    page.section("Leads of taps");
    page.head(&["form", "pitches", "for", "source"]);
    for lead in thread::tap_leads() {
        let (low, high) = lead.pitches();
        page.row(&[
            lead.form(),
            &format!("{low} to {high}"),
            lead.suits(),
            lead.source().text(),
        ]);
    }
}

fn run_outs(page: &mut Page) {
    page.section("Run-outs and undercuts");
    page.render("Information only: they cost wall on a pen, where the tool's own lead-in decides. Diameters for M12.");
    page.head(&[
        "P",
        "run-out x",
        "to shoulder a",
        "blind hole e",
        "undercut ⌀",
        "its width",
        "undercut inside ⌀",
        "its width",
        "source",
    ]);
    for pitch in ["0.5", "0.75", "0.8", "1", "1.25", "1.5", "1.75"] {
        let form: ThreadForm = format!("M12x{pitch}")
            .parse()
            .expect("a designation of our own");
        let relief = form.relief().expect("it is listed");
        page.row(&[
            pitch,
            &relief.run_out.normal.mm_text(3),
            &relief.to_shoulder.normal.mm_text(3),
            &relief.blind.normal.mm_text(3),
            &relief.outside.diameter.mm_text(3),
            &span(relief.outside.width),
            &relief.inside.diameter.mm_text(3),
            &span(relief.inside.width),
            relief.source.text(),
        ]);
    }
}

fn drills(page: &mut Page) {
    page.section("Inch drills");
    page.head(&["drill", "in", "mm"]);
    let inch = || drill::all().iter().filter(|drill| drill.flute().is_none());
    for drill in inch() {
        page.row(&[
            &drill.to_string(),
            &drill.diameter().inch_text(6),
            &drill.diameter().mm_text(4),
        ]);
    }
    page.sources(inch().map(|drill| drill.source().text()));
}

fn materials(page: &mut Page) {
    page.section("Materials");
    page.head(&[
        "kind",
        "other names",
        "g/cm³",
        "from",
        "to",
        "turning m/min",
        "drilling m/min",
        "MPa",
        "µm/(m·K)",
        "ink attacks",
        "finest pitch",
        "GPa",
        "strain %",
        "colour",
        "source of the density",
    ]);
    for kind in material::all() {
        let density = kind.density();
        let grams = |kg_m3: f64| format!("{:.2}", kg_m3 / 1000.0);
        let speed = |operation| {
            let cutting = kind.cutting(operation);
            let speed = cutting.and_then(|cutting| cutting.speed_m_min());
            optional(speed.map(|Range { low, high }| format!("{low} to {high}")))
        };
        let number = |fact: Option<(f64, _)>| optional(fact.map(|(value, _)| value.to_string()));
        page.row(&[
            kind.kind(),
            &kind.aliases().collect::<Vec<_>>().join(", "),
            &grams(density.typical_kg_m3),
            &grams(density.low_kg_m3),
            &grams(density.high_kg_m3),
            &speed(Operation::Turning),
            &speed(Operation::Drilling),
            &number(kind.bending_mpa()),
            &number(kind.expansion_per_million_k()),
            if kind.ink_attacks() { "yes" } else { "no" },
            &kind
                .finest_pitch(Length::ZERO)
                .map_or("any".to_owned(), |pitch| pitch.mm_text(2)),
            &number(kind.modulus_gpa()),
            &number(kind.strain_percent()),
            &kind.colour().to_string(),
            density.source.text(),
        ]);
    }
}

fn speeds(page: &mut Page) {
    page.section("Cutting speeds");
    page.render(
        "Where to begin, HSS tools; the machine's, chuck's and collet's own limits come first.",
    );
    page.head(&[
        "group",
        "operation",
        "m/min",
        "at most rev/min",
        "source",
        "second source, m/min",
        "which",
    ]);
    for (word, operation) in [
        ("turning", Operation::Turning),
        ("drilling", Operation::Drilling),
    ] {
        for (group, it) in material::cuttings(operation) {
            let ends = |Range { low, high }| format!("{low} to {high}");
            let second = it.second();
            page.row(&[
                group,
                word,
                &optional(it.speed_m_min().map(ends)),
                &optional(it.most_rev_min().map(|most| most.to_string())),
                it.source().text(),
                &optional(second.map(|(speed, _)| ends(speed))),
                second.map_or("", |(_, source)| source.text()),
            ]);
        }
    }
}

fn families(page: &mut Page) {
    page.section("Least walls and percent of thread by family");
    page.head(&[
        "family",
        "thread over thread",
        "tenon over bore",
        "lip",
        "plain wall",
        "percent of 3H/4, kind",
        "at the outside",
    ]);
    let turned = Family::ALL
        .into_iter()
        .filter(|family| !matches!(family, Family::Rubber | Family::Liquid));
    for family in turned {
        let walls = material::least_walls(family);
        let pair = |wall: material::WarnError| {
            format!("{}, never {}", wall.warn.mm_text(2), wall.error.mm_text(2))
        };
        let practice = thread::percent_practice(family);
        page.row(&[
            family.word(),
            &pair(walls.thread_over_thread),
            &pair(walls.tenon_over_bore),
            &walls.lip.mm_text(2),
            &walls.plain.mm_text(2),
            &optional(practice.map(|it| format!("{} to {}", it.kind_low, it.kind_high))),
            &optional(practice.map(|it| format!("{} to {}", it.least, it.most))),
        ]);
    }
    page.sources([material::least_walls(Family::Resin).source.text()]);
}

fn bought_parts(page: &mut Page) {
    page.section("Bought parts at their usual size");
    page.render("For a first sketch: the part in hand is measured.");
    page.head(&["part", "what it is", "length", "⌀", "bore to pass", "ml"]);
    for part in bought::all() {
        page.row(&[
            part.kind(),
            part.title(),
            &part.length().mm_text(2),
            &part.diameter().mm_text(2),
            &part.bore_to_pass().mm_text(2),
            &optional(part.ink_ml().map(|ml| ml.to_string())),
        ]);
    }
    page.sources(bought::all().iter().map(|part| part.source().text()));
}
