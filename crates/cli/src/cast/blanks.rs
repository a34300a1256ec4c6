//! The blanks of a design as moulds.

use super::CastArgs;
use crate::plans::plans;
use crate::warn::{self, OmissionWarnings};
use quillet_export::report::CastQuestion;
use quillet_model::Material;
use quillet_pen::Planned;
use quillet_standards::cast::{Mix, Moulds};
use std::path::Path;
use std::sync::Arc;

/// A casting for each resin that the pens of a design are cut from. A mix and a pigment that were
/// asked for stand for what the material says.
///
/// # Errors
///
/// A sentence where the file cannot be read, or nothing in it is cast.
pub(super) fn questions(
    args: &CastArgs,
    file: &Path,
    mix: Option<Mix>,
) -> Result<Vec<CastQuestion>, String> {
    let analysis = args.at.analysis(file)?;
    let design = &analysis.design;
    warn::errors(analysis.examined());
    let mut left_out = OmissionWarnings::default();
    let planned = plans(design, &args.pens.pens(design)?, &mut left_out)?;
    let of_resins = Planned::cut_list(&planned).moulds();
    if of_resins.is_empty() {
        return Err("nothing in this design is cut from a resin, round or square".into());
    }
    let question = |(material, moulds): (Arc<Material>, Vec<Moulds>)| {
        let density = args.density.unwrap_or(material.density_g_cm3);
        let mut casting = args.casting(moulds, mix.or(material.mix), density);
        if args.pigment.is_none() {
            casting.pigment_percent = material.pigment_percent.unwrap_or(0.0);
        }
        CastQuestion {
            of: Some(material.title_or_name().to_owned()),
            casting,
        }
    };
    Ok(of_resins.into_iter().map(question).collect())
}
