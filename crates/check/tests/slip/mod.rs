//! Designs with one slip each, made from a sound text.

/// A text with one mistake.
pub(crate) struct Slip {
    /// What was done to it: `line 20: drill 12.2 to 54 → drill 122 to 54`.
    pub(crate) what: String,
    /// The whole text.
    pub(crate) text: String,
}

/// Every slip that is made in a text, in the order of its lines.
pub(crate) fn all(text: &str) -> Vec<Slip> {
    let lines: Vec<&str> = text.lines().collect();
    let mut slips = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        let code = line.split("--").next().unwrap_or_default();
        for changed in changed(code) {
            let mut whole: Vec<&str> = lines.clone();
            match &changed {
                Some(changed) => whole[index] = changed,
                None => {
                    whole.remove(index);
                }
            }
            let now = changed.as_deref().unwrap_or("taken out").trim();
            slips.push(Slip {
                what: format!("line {}: {} → {now}", index + 1, code.trim()),
                text: whole.join("\n") + "\n",
            });
        }
    }
    slips
}

/// A line with one slip each; none where it is left out.
fn changed(line: &str) -> Vec<Option<String>> {
    let word = line.trim().split(' ').next().unwrap_or_default();
    let mut slips: Vec<Option<String>> = Vec::new();
    let cuts = [
        "drill",
        "bore",
        "relief",
        "thread",
        "tenon",
        "countersink",
        "chamfer",
        "length",
    ];
    if cuts.contains(&word) && !line.contains('=') {
        slips.push(None);
        slips.push(Some(line.replacen(word, &misspelt(word), 1)));
    }
    if cuts.contains(&word) || word == "at" || line.contains(" rod ") {
        for (start, number) in numbers(line) {
            for other in others(number) {
                let end = start + number.len();
                slips.push(Some(format!("{}{other}{}", &line[..start], &line[end..])));
            }
        }
    }
    for (one, other) in [
        (" into ", " onto "),
        (" onto ", " into "),
        (" inside ", " outside "),
        (" to ", " for "),
        (" starts 3", " starts 2"),
        ("M10x0.75", "M10x1"),
        (".mouth", ".moth"),
        (" {", ""),
    ] {
        if line.contains(one) {
            slips.push(Some(line.replacen(one, other, 1)));
        }
    }
    slips
}

fn misspelt(word: &str) -> String {
    let (front, back) = word.split_at(2);
    format!("{front}{}", back.get(1..).unwrap_or_default())
}

/// The numbers of a line, each with where it begins.
fn numbers(line: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut start = 0;
    for part in line.split(' ') {
        if part.parse::<f64>().is_ok() {
            found.push((start, part));
        }
        start += part.len() + 1;
    }
    found
}

/// What a hand makes of a number: a decimal comma, a tenth more or less, a lost point, a digit more.
fn others(number: &str) -> Vec<String> {
    let value: f64 = number.parse().unwrap_or_default();
    let mut others = vec![
        format!("{:.1}", value + 0.6),
        format!("{:.1}", (value - 0.6).max(0.1)),
    ];
    if number.contains('.') {
        others.push(number.replace('.', ","));
        others.push(number.replace('.', ""));
    } else {
        others.push(format!("{number}0"));
    }
    others
}
