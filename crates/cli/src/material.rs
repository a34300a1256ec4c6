//! `quillet material`: density, speeds, walls and cautions of a built-in kind.

use crate::answer::{Show, print};
use quillet_export::report;
use quillet_standards::material::{self, Family, Material};
use std::process::ExitCode;

/// What `quillet material` may be asked.
#[derive(clap::Args)]
pub(crate) struct MaterialArgs {
    /// The kind: acrylic, ebonite, black-walnut, brass; without it, all kinds are listed
    name: Vec<String>,
    #[command(flatten)]
    show: Show,
}

/// Answers the question on the terminal.
pub(crate) fn run(args: &MaterialArgs) -> ExitCode {
    let answer = if args.name.is_empty() {
        Ok(report::materials())
    } else {
        named(&args.name.join(" ")).map(report::material)
    };
    print(answer, &args.show)
}

/// The family of a kind.
pub(crate) fn family(name: &str) -> Result<Family, String> {
    named(name).map(Material::family)
}

fn named(name: &str) -> Result<&'static Material, String> {
    let plain = name.trim().to_lowercase().replace([' ', '_'], "-");
    material::named(&plain).ok_or_else(|| {
        let near: Vec<&str> = material::akin(&plain).collect();
        if near.is_empty() {
            format!("`{name}` is no built-in material; `quillet material` lists them")
        } else {
            format!(
                "`{name}` is no built-in material; there is {}",
                near.join(", ")
            )
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kind_is_found_by_name_alias_and_words() {
        for (asked, kind) in [
            ("acrylic", "acrylic"),
            ("Black Walnut", "black-walnut"),
            ("aluminum", "aluminium"),
        ] {
            assert_eq!(named(asked).map(Material::kind), Ok(kind));
        }
        let fault = named("red walnut").map(Material::kind).unwrap_err();
        assert!(
            fault.contains("there is black-walnut, red-maple"),
            "{fault}"
        );
        assert!(named("marzipan").is_err_and(|fault| fault.contains("lists them")));
    }

    #[test]
    fn a_kind_is_told_with_units_and_sources() {
        let found = report::material(named("acrylic").unwrap_or_else(|fault| panic!("{fault}")));
        let text = found.page.text(true);
        for wanted in ["1.19 g/cm³", "15 to 45 m/min", "never under 0.5 mm", "[1] "] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
        assert_eq!(found.json["density_kg_m3"]["typical"], 1190.0);
        assert!(
            report::materials()
                .json
                .as_array()
                .is_some_and(|all| all.len() == material::all().count())
        );
    }
}
