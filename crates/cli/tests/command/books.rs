//! The pages to read: the manual, a gallery, what a shell completes by, a page a command.

use crate::run::{repository, run, stderr, stdout};
use std::path::Path;

const EXAMPLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");

#[test]
fn the_manual_is_one_page_whose_links_all_lead_somewhere() {
    let folder = tempfile::tempdir().unwrap();
    let output = run(folder.path(), &["manual"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let page = std::fs::read_to_string(folder.path().join("manual.html")).unwrap();
    let after = |mark: &'static str| {
        let all = page.split(mark).skip(1);
        all.filter_map(|it| it.split('"').next())
    };
    let ids: Vec<_> = after(" id=\"").collect();
    let mut links = 0;
    for link in after("href=\"#") {
        assert!(ids.contains(&link), "{link} leads nowhere");
        links += 1;
    }
    assert!(links > 150, "{links}");
    let mut once = ids.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), ids.len(), "two headings of one name");
    for rule in quillet_check_rules(folder.path()) {
        assert!(ids.contains(&rule.as_str()), "{rule} has no page");
    }
    // Heron's cap, barrel, section and both pens; the manual's own four pictures.
    assert_eq!(page.matches("<figure>").count(), 5);
    assert!(page.matches("<img ").count() >= 9);
}

/// Every rule by its name, as `quillet explain` lists them.
fn quillet_check_rules(folder: &Path) -> Vec<String> {
    let listed = stdout(&run(folder, &["explain"]));
    let names = listed.lines().filter_map(|it| it.split_whitespace().next());
    names.map(str::to_owned).collect()
}

#[test]
fn a_gallery_has_a_card_for_each_pen_and_says_what_is_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let broken = folder.path().join("broken.quillet");
    std::fs::write(&broken, "part cap from\n").unwrap();
    let arguments = [
        "gallery",
        EXAMPLES,
        "broken.quillet",
        "--page",
        "https://example.org/bench/",
    ];
    let output = run(folder.path(), &arguments);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let page = std::fs::read_to_string(folder.path().join("gallery.html")).unwrap();
    let cards: Vec<_> = page.split("<li>").skip(1).collect();
    let of = |end: &str| {
        let found = cards.iter().find(|it| it.contains(end));
        *found.unwrap_or_else(|| panic!("no card of {end}"))
    };
    let heron = of("examples/heron.quillet");
    assert!(heron.contains("138.0 mm capped, 21.7 g filled"), "{heron}");
    assert!(
        heron.contains("href=\"https://example.org/bench/#q1="),
        "{heron}"
    );
    let knot = of("/knot.quillet");
    assert!(
        knot.contains("6 errors; quillet check says which"),
        "{knot}"
    );
    let broken = of("broken.quillet");
    assert!(broken.contains("class=\"wrong\""), "{broken}");
    assert!(!page.contains("saltings.quillet</h2>"), "a bench is no pen");
}

#[test]
fn a_gallery_says_no_more_of_where_files_lie_than_the_name_that_was_given() {
    let folder = repository("");
    let given = folder.path().display().to_string();
    std::fs::write(
        folder.path().join("bad.quillet"),
        "use \"nowhere.quillet\"\n",
    )
    .unwrap();
    let page = folder.path().join("g.html").display().to_string();
    let output = run(folder.path(), &["gallery", &given, "-o", &page]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let page = std::fs::read_to_string(page).unwrap();
    let last = folder.path().file_name().unwrap().to_string_lossy();
    assert!(page.contains(&format!("{last}/heron.quillet")));
    let above = folder.path().parent().unwrap().display().to_string();
    assert!(!page.contains(&above), "{above}");
}

#[test]
fn a_gallery_of_nothing_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let output = run(folder.path(), &["gallery", "."]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        stderr(&output).contains("no pen to show"),
        "{}",
        stderr(&output)
    );
    assert!(!folder.path().join("gallery.html").exists());
}

#[test]
fn shells_and_man_are_told_of_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let help = stdout(&run(folder.path(), &["--help"]));
    let commands = help.lines().filter_map(|it| it.strip_prefix("  "));
    let commands = commands.filter(|it| it.starts_with(|first: char| first.is_ascii_lowercase()));
    let commands: Vec<_> = commands
        .filter_map(|it| it.split_whitespace().next())
        .collect();
    assert!(
        commands.len() > 20 && !commands.contains(&"manpages"),
        "{commands:?}"
    );
    for shell in ["bash", "zsh", "fish", "powershell"] {
        let script = stdout(&run(folder.path(), &["completions", shell]));
        for command in &commands {
            assert!(script.contains(command), "{shell} does not know {command}");
        }
    }
    let output = run(folder.path(), &["manpages", "man"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let page = |name: &str| std::fs::read_to_string(folder.path().join("man").join(name)).unwrap();
    assert!(page("quillet.1").contains("gallery"));
    for command in commands.iter().filter(|it| **it != "help") {
        assert!(
            page(&format!("quillet-{command}.1")).contains(".SH SYNOPSIS"),
            "{command}"
        );
    }
    assert!(!folder.path().join("man/quillet-manpages.1").exists());
}
