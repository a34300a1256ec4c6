//! How a size and a thread are written, and what is nearly one.

use super::super::*;
use super::reported;
use crate::ast::ItemKind;

/// As the terminal reads them; in a sum the same text stays a difference.
#[test]
fn an_inch_thread_may_leave_out_its_series() {
    let designation = |text: &str| {
        let file = format!("thread joint = {text}\n");
        let parsed = parse(FileId(0), &file);
        let ItemKind::Thread(thread) = &parsed.tree.items[0].kind else {
            panic!("{text} is no thread");
        };
        let written: Vec<String> = parsed
            .findings
            .iter()
            .map(|it| it.message.to_string())
            .collect();
        (thread.form.designation.text.to_string(), written)
    };
    for text in [
        "7/16-14",
        "3/8-24",
        "1/2-30",
        "1-1/8-12",
        "#10-32",
        "0.5-28",
        "1-8",
        "7/16-14-LH",
        "1/2-28-2A-LH",
        "7/16-28UNEF",
    ] {
        assert_eq!(designation(text), (text.to_owned(), Vec::new()));
    }
    assert_eq!(
        designation("1/2-30 starts 3"),
        ("1/2-30".to_owned(), Vec::new())
    );
    for text in ["7/16 -14", "7/16", "7", "7/16-", "a", "1/2/3-8"] {
        assert_ne!(designation(text).1, Vec::<String>::new(), "{text}");
    }
    let in_place = "part a from b to c {\n  from b {\n    thread 7/16-14 outside for 3\n  }\n}\n\
                    bench d {\n  taps 7/16-14, 1/2-30 starts 3 lead 2\n}\n";
    assert_eq!(reported(in_place), "");
    assert_eq!(reported("let a = 7/16-14\n"), "");
}

#[test]
fn what_is_nearly_a_size_or_a_thread_is_told_how_it_is_written() {
    let cut = |line: &str| reported(&format!("part a from b to c {{\nfrom b {{\n{line}\n}}\n}}"));
    assert!(reported("thread joint = M10X0.75\n").contains("(write M10x0.75)"));
    assert!(reported("thread joint = M10×0.75-6g\n").contains("(write M10x0.75-6g)"));
    assert!(cut("drill F to 12").contains("a letter drill is written letter F (write letter F)"));
    assert!(cut("drill 9,3 to 12").contains("(write a point)"));
    assert_eq!(cut("drill letter F to 12"), "");
}
