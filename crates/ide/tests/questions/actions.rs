//! What can be done to the text.

use crate::asked::{Asked, BARREL, PEN, at, at_pen, in_pen, with_shared};
use std::cell::Cell;
use std::sync::Arc;

#[test]
fn actions_rewrite_numbers() {
    assert!(
        at("let a = 1|2.7mm\n")
            .after("write 1/2in")
            .contains("let a = 1/2in")
    );
    assert!(
        at("let a = 7/1|6in\n")
            .after("write 11.1125")
            .contains("let a = 11.1125\n")
    );
    let named = at_pen("12.2 to").after("name this number");
    assert!(
        named.contains("let cap-drill = 12.2\n\n-- the cap\npart cap"),
        "{named}"
    );
    assert!(named.contains("drill cap-drill to 54"), "{named}");
}

#[test]
fn a_number_that_is_found_fault_with_moves_to_the_nearest_that_passes() {
    // The bottom of the hole, or its cone, comes too near the crown at 64.
    let asked = at(&PEN.replace("drill 12.2 to 54", "drill 12.2 to 6|0"));
    let after = asked.after("move cap.mouth.drill.to to ");
    let (_, rest) = after.split_once("drill 12.2 to ").unwrap();
    let depth: f64 = rest.split_whitespace().next().unwrap().parse().unwrap();
    assert!((50.0..60.0).contains(&depth), "{depth}");
    let found = |depth: f64| {
        let text = PEN.replace("drill 12.2 to 54", &format!("drill 12.2 to {depth:.2}"));
        with_shared(&text, 0).analysis.examined().findings.len()
    };
    // It passes as PEN does, and a hundredth more does not.
    assert_eq!(found(depth), found(54.0));
    assert!(found(depth + 0.01) > found(54.0));
}

#[test]
fn numbers_that_put_one_face_where_it_is_get_one_name() {
    let relieved = BARREL.replace(
        "for 4 at 1.5\n",
        "for 4 at 1.5\n    relief 12 for 2.5 at 5.5\n",
    );
    let text = format!("{PEN}{relieved}");
    let asked = with_shared(&text, text.find("8    dia 15 as shoulder").unwrap());
    let after = asked.after("name it, with barrel.mouth.tenon.for and barrel.mouth.relief2.for: ");
    for wanted in [
        "let barrel-station = 8\n\npart barrel",
        "at barrel-station    dia 15 as shoulder",
        "tenon for barrel-station\n",
        "relief 12 for (barrel-station - 5.5) at 5.5\n",
    ] {
        assert!(after.contains(wanted), "{wanted}: {after}");
    }
    // The same part is left.
    let part = |text: &str| {
        let design = &with_shared(text, 0).analysis.design;
        assert!(design.findings.is_empty(), "{:#?}", design.findings);
        let part = design.part("barrel").unwrap().clone();
        format!("{:?}", part.profiles.as_ref().unwrap().crest)
    };
    assert_eq!(part(&after), part(&text));
    // A number by itself has no others to be named with.
    let alone = at_pen("64\n");
    let place = alone.cursor().place();
    let actions = quillet_ide::actions(&alone.snapshot, &alone.analysis, place, &|| false).unwrap();
    assert!(actions.iter().all(|it| !it.title.starts_with("name it")));
}

#[test]
fn actions_write_out_what_is_assumed() {
    let without = PEN.replace("    drill 12.2 to 54\n", "");
    let place = without.find("thread closing inside").unwrap();
    let asked = with_shared(&without, place);
    let after = asked.after("write the tap drill out");
    assert!(after.contains("    drill 12.2 to "), "{after}");
    let assumed = |asked: &Asked| {
        let parts = asked.analysis.design.parts.iter();
        let drills = parts.flat_map(|part| &part.features).filter(|feature| {
            matches!(
                &feature.cut,
                quillet_model::Cut::Drill {
                    assumed_for: Some(_),
                    ..
                }
            )
        });
        drills.count()
    };
    assert_eq!(assumed(&asked), 1);
    assert_eq!(assumed(&with_shared(&after, 0)), 0);
}

#[test]
fn actions_add_what_is_missing_and_accept_with_a_reason() {
    let asked = in_pen("from mouth {\n", "    thread |tail inside to 3\n");
    assert!(
        asked
            .after("add the thread tail")
            .contains("thread tail = M10x0.75\n\n")
    );
    let thin = PEN.replace(
        "drill 12.2 to 54",
        "drill 12.2 to 54\n    drill 14.9 to 12 at 8",
    );
    let place = thin.find("drill 14.9").unwrap();
    let after = with_shared(&thin, place).after("accept thin-wall");
    assert!(
        after.contains("accept thin-wall because \"why\"\n}"),
        "{after}"
    );
}

#[test]
fn a_missing_part_gets_the_ends_its_joints_name() {
    let pen =
        "pen heron {\n  glue li|ner.front into cap.mouth\n  glue liner.back into cap.crown\n}\n";
    let after = at(&format!("{PEN}{pen}")).after("add the part liner");
    assert!(
        after.contains("part liner from front to back {\n  length 60\n}\n\npen"),
        "{after}"
    );
}

#[test]
fn a_thread_that_one_part_lacks_is_cut_on_it() {
    let barrel = |cuts: &str| {
        format!(
            "part barrel from mouth to tail {{\n  blank of reed rod 18\n  length 40\n  outside dia 16\n{cuts}}}\n"
        )
    };
    let pen = "pen heron {\n  cl|ose cap.mouth onto barrel.mouth\n}\n";
    let after = at(&format!("{PEN}{}{pen}", barrel(""))).after("cut the closing thread on barrel");
    let cuts = "  from mouth {\n    tenon for 7.5\n    thread closing outside for 7.5\n  }\n";
    assert!(after.contains(&barrel(cuts)), "{after}");
    // And the other way about, in the block that is there.
    let unthreaded = PEN.replace("    thread closing inside to 7.5 at 2.5\n", "");
    let after =
        at(&format!("{unthreaded}{}{pen}", barrel(cuts))).after("cut the closing thread on cap");
    assert!(
        after.contains("    drill 12.2 to 54\n    thread closing inside to 7.5\n  }\n"),
        "{after}"
    );
}

#[test]
fn what_is_found_on_a_line_is_cured_from_anywhere_on_it() {
    let asked = in_pen("from mouth {\n", "    dr|ill 3 to 50 at taill\n");
    let text = asked.cursor().file.text.replace("taill", "gripe");
    let asked = with_shared(&text, asked.offset);
    assert!(
        asked
            .after("write grip")
            .contains("drill 3 to 50 at grip\n")
    );
}

/// A cure is tried when it is asked for, once, and not for whoever no longer waits.
#[test]
fn cures_are_tried_once_when_asked_for_and_not_after_a_cancel() {
    let asked = at(&PEN.replace("length 64", "lenght 64"));
    let (analysis, snapshot) = (&asked.analysis, &asked.snapshot);
    assert!(!analysis.findings(&|| false).unwrap().is_empty());
    let looks = Cell::new(0);
    let gone = || {
        looks.set(looks.get() + 1);
        true
    };
    assert!(analysis.cures(0, snapshot, &gone).is_none(), "nobody waits");
    assert!(looks.get() > 0);
    let first = analysis.cures(0, snapshot, &|| false).unwrap();
    assert_eq!(first.len(), 1, "a cancel leaves nothing behind");
    // What is known is given even to whoever goes: nothing is tried again.
    let again = analysis.cures(0, snapshot, &gone).unwrap();
    assert!(Arc::ptr_eq(&first, &again));
    let place = asked.cursor().place();
    assert!(quillet_ide::actions(snapshot, analysis, place, &gone).is_none());
}
