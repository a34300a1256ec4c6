//! `quillet vary`: what is found and measured at each of a row of values.

use crate::at::At;
use crate::choice::PenChoice;
use crate::progress::Progress;
use crate::room::Format;
use crate::terminal;
use quillet_export::report::{Varied, rounded};
use quillet_model::Design;
use quillet_room::vary::{Axis, cases, vary};
use quillet_room::{Measures, Numbers, Probe};
use quillet_syntax::Severity;
use rayon::prelude::*;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet vary` may be asked.
#[derive(clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct VaryArgs {
    /// The file
    file: PathBuf,
    /// One number or two, each with its range and step: grip=10..12 step 0.1
    #[arg(required = true, value_name = "NUMBER=FROM..TO step BY")]
    ranges: Vec<String>,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// What to measure, as after `want`: mass(uncapped),turns [default: what the pen wants]
    #[arg(long, value_name = "MEASURES")]
    show: Option<String>,
    /// How to print it
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

const EXAMPLES: &str = "\
quillet vary heron.quillet grip=10..12 step 0.1 --pen heron
quillet vary heron.quillet 'cap.mouth.drill.to=50..58 step 2' --show 'mass(capped)' --format csv";

/// Prints a line a value; 0, or 2 with the reason where the range cannot be gone through.
pub(crate) fn run(args: &VaryArgs) -> ExitCode {
    terminal::ended(work(args))
}

fn work(args: &VaryArgs) -> Result<(), String> {
    let analysis = args.at.analysis(&args.file)?;
    let (design, examined) = (&analysis.design, analysis.examined());
    let pens = args.pen.pens(design)?;
    let probe = Probe::of(analysis.loaded(), (design, examined), None, Severity::Note);
    let numbers = Numbers::of(design);
    let axes = axes(&numbers, design, &args.ranges)?;
    let asked = args.show.as_deref().map(measures);
    let pen = match (pens.as_slice(), &asked) {
        ([pen], _) => Some(&*pen.name.text),
        (_, None) => None,
        (_, Some(_)) => Some(&*args.pen.one(design)?.name.text),
    };
    let wanted = || {
        let wants = pen.map(|pen| examined.wants_of_pen(pen));
        let own = wants.into_iter().flatten().filter(|it| it.part.is_none());
        own.map(|it| it.asked.clone()).collect()
    };
    let measures = Measures::of(&probe, pen.unwrap_or(""), &asked.unwrap_or_else(wanted))?;
    let cases = cases(&axes)?;
    let progress = Progress::of(cases.len(), "cases");
    let found = cases.into_par_iter().map(|case| {
        let values = vary(&probe, &measures, &axes, &case);
        progress.step();
        values
            .map(|values| (case, values))
            .ok_or("two of these numbers are one; name another")
    });
    let found = found.collect::<Result<Vec<_>, _>>()?;
    drop(progress);
    let moved: Vec<_> = axes.iter().map(|it| it.number).collect();
    let varied = Varied::of(design, &moved, measures.asked(), found);
    match args.format {
        Format::Text => terminal::out(&varied.text()),
        Format::Json => terminal::json(&rounded(&varied)),
        Format::Csv => terminal::out(&varied.csv()),
    }
}

/// `grip=10..12 step 0.1`, in one word or several; two numbers at most.
fn axes<'n>(
    numbers: &'n Numbers,
    design: &Design,
    words: &[String],
) -> Result<Vec<Axis<'n>>, String> {
    let text = words.join(" ");
    let mut ranges: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match ranges.last_mut() {
            Some(range) if !word.contains('=') => *range += &format!(" {word}"),
            _ => ranges.push(word.to_owned()),
        }
    }
    if ranges.len() > 2 {
        return Err(format!(
            "{} numbers; two at most are moved together",
            ranges.len()
        ));
    }
    ranges.iter().map(|it| axis(numbers, design, it)).collect()
}

fn axis<'n>(numbers: &'n Numbers, design: &Design, text: &str) -> Result<Axis<'n>, String> {
    let wanted =
        || format!("{text}: a number with its range and step is wanted, as grip=10..12 step 0.1");
    let (name, range) = text.split_once('=').ok_or_else(wanted)?;
    let (range, by) = range.split_once(" step ").ok_or_else(wanted)?;
    let number = numbers
        .find(design, name.trim())
        .map_err(|it| it.to_string())?;
    let by = by.trim().parse().map_err(|_| wanted())?;
    Axis::of(number, bounds(range).ok_or_else(wanted)?, by)
}

/// `10..12`.
pub(crate) fn bounds(text: &str) -> Option<(f64, f64)> {
    let (from, to) = text.split_once("..")?;
    let figure = |it: &str| it.trim().parse::<f64>().ok().filter(|it| it.is_finite());
    Some((figure(from)?, figure(to)?))
}

/// The measures of a list; a comma between parentheses parts none.
fn measures(list: &str) -> Vec<String> {
    let mut all = vec![String::new()];
    let mut depth = 0;
    for letter in list.chars() {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        match all.last_mut() {
            Some(last) if letter != ',' || depth > 0 => last.push(letter),
            _ => all.push(String::new()),
        }
    }
    let all = all.into_iter().map(|it| it.trim().to_owned());
    all.filter(|it| !it.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_measures_is_parted_at_its_own_commas() {
        assert_eq!(
            measures("mass(uncapped), diameter(section, 12),turns"),
            ["mass(uncapped)", "diameter(section, 12)", "turns"]
        );
    }
}
