//! What follows the cursor while it types.

use crate::asked::{Asked, PEN, at, at_pen, in_pen};

#[test]
fn the_form_of_a_statement_follows_the_cursor() {
    let active = |asked: &Asked| {
        let signature = quillet_ide::signature(asked.cursor()).unwrap();
        let active = signature.active.map(|active| signature.phrases[active]);
        active.map_or("", |(from, to)| &signature.form[from..to])
    };
    let cut = |after: &str| active(&in_pen("from mouth {\n", after));
    let reach = "(to DEPTH | for LENGTH | through)";
    assert_eq!(cut("    drill |\n"), "SIZE");
    assert_eq!(cut("    drill 8|\n"), "SIZE");
    assert_eq!(cut("    drill letter |\n"), "SIZE");
    assert_eq!(cut("    drill 8 |\n"), reach);
    assert_eq!(cut("    drill 8 to 12 + |\n"), reach);
    assert_eq!(cut("    drill 8 to 12 at |\n"), "[at START]");
    assert_eq!(cut("    drill 8 through |\n"), "[at START]");
    assert_eq!(
        cut("    taper 9 to 8 |\n"),
        "(for LENGTH | to DEPTH | through)"
    );
    assert_eq!(cut("    thread closing inside |\n"), reach);
    assert_eq!(cut("    tenon |\n"), "[DIAMETER]");
    let station = |after: &str| active(&in_pen("outside {\n", after));
    assert_eq!(station("    at 5 dia 12 smooth |\n"), "[step DIAMETER]");
    let shapes = "[smooth | dome | bead RADIUS | cove RADIUS]";
    assert_eq!(station("    at 5 dia 12 bead |\n"), shapes);
    assert_eq!(active(&at("thread a = |\n")), "= DESIGNATION");
    assert_eq!(active(&at("let a = |\n")), "= SUM");
    assert_eq!(
        active(&at("part a like |\n")),
        "(from FIRST to SECOND | like PART)"
    );
    assert_eq!(active(&at("pen a \"A\" |\n")), "[like PEN]");
    let tests = "(<= VALUE | >= VALUE | within LOW..HIGH | = VALUE +- TOLERANCE)";
    assert_eq!(active(&at("pen a {\nwant length(capped) |\n}\n")), tests);
    assert_eq!(active(&at("pen a {\nwant min(1, |\n}\n")), "MEASURE");
    assert!(quillet_ide::signature(at("-- drill |").cursor()).is_none());
}

#[test]
fn a_statement_that_is_whole_needs_no_help() {
    let cut = |after: &str| {
        let asked = in_pen("from mouth {\n", after);
        quillet_ide::signature(asked.cursor()).is_some()
    };
    // Within its first word, within what is whole, at its end, and where nothing more may be said.
    for whole in [
        "    dri|ll 8\n",
        "    drill| 8 to 12\n",
        "    drill | 8 to 12\n",
        "    drill 8| to 12\n",
        "    drill 8 to |12\n",
        "    drill 8 to 12|\n",
        "    drill 8 to 12 |at 3\n",
        "    chamfer 1 as rim |\n",
        "    drill 8 to 12 -- a no|te\n",
    ] {
        assert!(!cut(whole), "{whole}");
    }
    for half in [
        "    drill |\n",
        "    drill 8|\n",
        "    drill 8 | 12\n",
        "    drill 8 to 12 |\n",
        "    drill 8 to 12 | -- a note\n",
        "    drill 8 to 12 at|\n",
    ] {
        assert!(cut(half), "{half}");
    }
}

#[test]
fn selections_grow_to_the_file() {
    let asked = at_pen("12.2 to");
    let grown: Vec<_> = quillet_ide::selections(asked.cursor());
    assert_eq!(asked.text(grown[0]), "12.2");
    assert_eq!(asked.text(grown[1]), "drill 12.2 to 54");
    assert_eq!(asked.text(*grown.last().unwrap()).len(), PEN.len());
    assert!(grown.windows(2).all(|pair| pair[1].contains(pair[0])));
}

#[test]
fn a_new_line_is_indented_by_its_block() {
    let asked = at("part a from x to y {\n|\n}\n");
    let edits = quillet_ide::format_on_type(asked.cursor().file, asked.offset);
    let indent: Vec<_> = edits.iter().map(|edit| edit.text.as_str()).collect();
    assert_eq!(indent, ["  "]);
}
