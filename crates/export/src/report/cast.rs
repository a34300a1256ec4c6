//! What a casting takes: resin, hardener, pigment.

use super::{Answer, AnswerPage, SCHEMA_VERSION};
use quillet_geometry::number;
use quillet_standards::cast::{CAUTIONS, CAUTIONS_SOURCE, Cast, CastError, Casting, MixBy};
use serde::Serialize;

/// A casting that is asked about, and what it is of.
pub struct CastQuestion {
    /// What it is poured from, where a design says; none where moulds were given.
    pub of: Option<String>,
    /// The casting.
    pub casting: Casting,
}

/// Answers what castings take.
///
/// # Errors
///
/// A sentence where one comes to nothing.
pub fn cast(asked: Vec<CastQuestion>) -> Result<Answer, String> {
    let mut page = AnswerPage::new(match asked.len() {
        1 => "one casting".to_owned(),
        count => format!("{count} castings"),
    });
    let mut castings = Vec::new();
    for question in &asked {
        let found = question.casting.works_out().map_err(|it| said(&it))?;
        tell(&mut page, question, &found);
        castings.push(CastingReport::of(question, &found));
    }
    page.heading("before it is poured");
    for (at, caution) in CAUTIONS.iter().enumerate() {
        page.sourced(format!("{}", at + 1), *caution, CAUTIONS_SOURCE);
    }
    let figures = CastReport {
        schema_version: SCHEMA_VERSION,
        castings,
    };
    Ok(Answer::new(page, &figures))
}

fn said(error: &CastError) -> String {
    match error {
        CastError::NothingLeft {
            displaced_ml,
            moulds_ml,
        } => format!(
            "--displaced {} ml leaves nothing to fill: the moulds hold {} ml in all",
            number(*displaced_ml, 1),
            number(*moulds_ml, 1)
        ),
        CastError::OutOfRange => {
            "a figure is out of its range: waste, pigment and what is displaced from 0 on, a density over 0".to_owned()
        }
    }
}

fn tell(page: &mut AnswerPage, question: &CastQuestion, found: &Cast) {
    let asked = &question.casting;
    page.heading(question.of.as_deref().unwrap_or("what is poured"));
    for moulds in &asked.moulds {
        let what = match moulds.count {
            1 => "1 mould".to_owned(),
            count => format!("{count} moulds"),
        };
        let size = format!(
            "{} {} by {}, {:.1} ml",
            moulds.section.word(),
            number(moulds.size.to_mm(), 2),
            number(moulds.length.to_mm(), 2),
            moulds.volume_ml()
        );
        page.row(what, size);
    }
    page.row("moulds in all", format!("{:.1} ml", found.moulds_ml));
    if asked.displaced_ml > 0.0 {
        page.row("displaced", format!("{:.1} ml", asked.displaced_ml));
    }
    let waste = number(asked.waste_percent, 1);
    page.row(
        format!("with {waste} % waste"),
        format!("{:.1} ml", found.volume_ml),
    );
    let density = number(asked.density_g_cm3, 3);
    page.row(
        format!("mass at {density} g/cm³"),
        format!("{:.1} g", found.mass_g),
    );
    if let (Some(mix), Some(portions)) = (asked.mix, found.portions) {
        let unit = portions.by.unit();
        for (part, amount) in mix.shares().into_iter().zip(portions.amounts) {
            let what = format!("{} by {}", number(part, 2), mix.by().word());
            page.row(what, format!("{amount:.1} {unit}"));
        }
    }
    if asked.pigment_percent > 0.0 {
        let percent = number(asked.pigment_percent, 2);
        page.row(
            format!("pigment, {percent} %"),
            format!("{:.1} g, on top", found.pigment_g),
        );
    }
}

#[derive(Serialize)]
struct CastReport {
    schema_version: u32,
    castings: Vec<CastingReport>,
}

#[derive(Serialize)]
struct CastingReport {
    of: Option<String>,
    moulds: Vec<MouldReport>,
    moulds_ml: f64,
    displaced_ml: f64,
    waste_percent: f64,
    volume_ml: f64,
    density_g_cm3: f64,
    mass_g: f64,
    mix: Option<MixReport>,
    pigment_percent: f64,
    pigment_g: f64,
}

#[derive(Serialize)]
struct MouldReport {
    count: u32,
    section: &'static str,
    size_mm: f64,
    length_mm: f64,
}

#[derive(Serialize)]
struct MixReport {
    by: &'static str,
    shares: [f64; 2],
    /// Where it is mixed by weight.
    parts_g: Option<[f64; 2]>,
    /// Where it is mixed by volume.
    parts_ml: Option<[f64; 2]>,
}

impl CastingReport {
    fn of(question: &CastQuestion, found: &Cast) -> Self {
        let asked = &question.casting;
        let moulds = asked.moulds.iter().map(|it| MouldReport {
            count: it.count,
            section: it.section.word(),
            size_mm: it.size.to_mm(),
            length_mm: it.length.to_mm(),
        });
        let mix = asked.mix.zip(found.portions).map(|(mix, portions)| {
            let by = |wanted| (portions.by == wanted).then_some(portions.amounts);
            MixReport {
                by: mix.by().word(),
                shares: mix.shares(),
                parts_g: by(MixBy::Weight),
                parts_ml: by(MixBy::Volume),
            }
        });
        Self {
            of: question.of.clone(),
            moulds: moulds.collect(),
            moulds_ml: found.moulds_ml,
            displaced_ml: asked.displaced_ml,
            waste_percent: asked.waste_percent,
            volume_ml: found.volume_ml,
            density_g_cm3: asked.density_g_cm3,
            mass_g: found.mass_g,
            mix,
            pigment_percent: asked.pigment_percent,
            pigment_g: found.pigment_g,
        }
    }
}
