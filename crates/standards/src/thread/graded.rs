//! The limits of a class at a thread's size, by ISO 965-1 or ASME B1.1.

use quillet_geometry::{Length, Limits};

use super::class::{Kind, ThreadClass, ThreadSide};
use super::form::{ThreadForm, ThreadSize};
use super::iso965::{self, Tolerance};
use super::limits::{
    CREST_CLEARANCE, ExternalLimits, InternalLimits, LimitsError, LimitsFrom, ROUND_ROOT,
};
use super::unified;

/// The pitch enters the limits of size, never the lead: several starts change nothing.
impl ThreadForm {
    /// Limits of size of the outside thread to `class`.
    ///
    /// # Errors
    /// When the class is not one of outside threads of this system, or the standard does not have it.
    pub fn external_limits(&self, class: ThreadClass) -> Result<ExternalLimits, LimitsError> {
        let tolerances = (Tolerance::Major, Tolerance::ExternalPitch);
        let iso = match self.graded(class, ThreadSide::External, tolerances)? {
            Graded::Iso(iso) => iso,
            Graded::Unified(grade) => return Ok(unified::external(self, class, grade)),
        };
        let es = iso.deviation;
        let d_max = to_um(iso.major.to_mm()) + es;
        let d2_max = to_um(self.pitch_diameter_mm()) + es;
        let d2_least_mm = self.pitch_diameter_mm() + (es - iso.on_pitch).to_mm();
        Ok(ExternalLimits {
            class,
            major: Limits::new(d_max, d_max - iso.on_crest),
            pitch: Limits::new(d2_max, d2_max - iso.on_pitch),
            minor_max_flat: to_um(self.minor_diameter_mm()) + es,
            root_min: to_um(d2_least_mm - ROUND_ROOT * iso.pitch.to_mm()),
            from: iso.from,
            source: iso965::source(iso.from),
        })
    }

    /// Limits of size of the inside thread to `class`.
    ///
    /// # Errors
    /// When the class is not one of inside threads of this system, or the standard does not have it.
    pub fn internal_limits(&self, class: ThreadClass) -> Result<InternalLimits, LimitsError> {
        let tolerances = (Tolerance::Minor, Tolerance::InternalPitch);
        let iso = match self.graded(class, ThreadSide::Internal, tolerances)? {
            Graded::Iso(iso) => iso,
            Graded::Unified(grade) => return Ok(unified::internal(self, class, grade)),
        };
        let ei = iso.deviation;
        let d1_min = to_um(self.minor_diameter_mm()) + ei;
        let d2_min = to_um(self.pitch_diameter_mm()) + ei;
        let d2_most_mm = self.pitch_diameter_mm() + (ei + iso.on_pitch).to_mm();
        Ok(InternalLimits {
            class,
            minor: Limits::new(d1_min, d1_min + iso.on_crest),
            pitch: Limits::new(d2_min, d2_min + iso.on_pitch),
            major_min: to_um(iso.major.to_mm()) + ei,
            major_max: to_um(d2_most_mm + CREST_CLEARANCE * iso.pitch.to_mm()),
            from: iso.from,
            source: iso965::source(iso.from),
        })
    }

    /// The figures of a class for one side: `tolerances` are those of the diameter at the crests,
    /// which is turned or drilled, and of the pitch diameter.
    fn graded(
        &self,
        class: ThreadClass,
        side: ThreadSide,
        tolerances: (Tolerance, Tolerance),
    ) -> Result<Graded, LimitsError> {
        match (self.size(), class.kind()) {
            _ if class.side() != side => Err(self.wrong(class, side)),
            (
                ThreadSize::Metric { major, pitch },
                Kind::Iso {
                    pitch: grade,
                    crest,
                    position,
                },
            ) => {
                let deviation = iso965::deviation(position, pitch)?;
                let on_crest = iso965::tolerance(tolerances.0, crest, major, pitch)?;
                let on_pitch = iso965::tolerance(tolerances.1, grade, major, pitch)?;
                Ok(Graded::Iso(Iso {
                    major,
                    pitch,
                    deviation: deviation.size,
                    on_crest: on_crest.size,
                    on_pitch: on_pitch.size,
                    from: deviation.from.and(on_crest.from).and(on_pitch.from),
                }))
            }
            (ThreadSize::Inch { .. }, Kind::Unified { class: grade, .. }) => {
                Ok(Graded::Unified(grade))
            }
            _ => Err(self.wrong(class, side)),
        }
    }

    fn wrong(&self, class: ThreadClass, side: ThreadSide) -> LimitsError {
        LimitsError::Class {
            class,
            side,
            inch: self.is_inch(),
        }
    }
}

/// A class at a thread's size, in its system of units.
enum Graded {
    Iso(Iso),
    Unified(u8),
}

/// The figures of ISO 965-1 for one side of a thread.
struct Iso {
    major: Length,
    pitch: Length,
    /// es or EI, from the basic profile.
    deviation: Length,
    /// Of the diameter at the crests: Td or TD1.
    on_crest: Length,
    /// Of the pitch diameter: Td2 or TD2.
    on_pitch: Length,
    from: LimitsFrom,
}

/// Rounded to the micrometre, as the standard prints basic sizes.
fn to_um(mm: f64) -> Length {
    Length::from_nm((mm * 1000.0).round() as i64 * 1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thread(designation: &str) -> ThreadForm {
        designation.parse().unwrap()
    }

    fn class(text: &str) -> ThreadClass {
        text.parse().unwrap()
    }

    /// ISO 965-2 / ASME B1.13M, exact to the micrometre.
    #[test]
    fn limits_of_6g_and_6h_are_those_printed() {
        for row in quillet_reference::rows("metric_thread_limits.csv") {
            let form = thread(row.text("designation"));
            let outside = form.external_limits(class("6g")).unwrap();
            let inside = form.internal_limits(class("6H")).unwrap();
            for (column, found) in [
                ("d_max", outside.major.max()),
                ("d_min", outside.major.min()),
                ("d2_max", outside.pitch.max()),
                ("d2_min", outside.pitch.min()),
                ("d1_max_flat", outside.minor_max_flat),
                ("d3_min_round", outside.root_min),
                ("D_min", inside.major_min),
                ("D1_min", inside.minor.min()),
                ("D1_max", inside.minor.max()),
                ("D2_min", inside.pitch.min()),
                ("D2_max", inside.pitch.max()),
                ("D_max_ref", inside.major_max),
            ] {
                let printed = Length::parse_mm(row.text(column)).unwrap();
                assert_eq!(found, printed, "{row}: {column}");
            }
            let from = outside.from.and(inside.from);
            assert_eq!(from.word(), row.text("basis"), "{row}");
        }
    }

    /// Worked check values of `thread_tolerance_formulas.md`, and other classes of the same sizes:
    /// only es, EI and the grades move.
    #[test]
    fn other_classes_move_by_their_deviation_and_grade() {
        let form = thread("M10");
        let h = form.external_limits(class("6h")).unwrap();
        assert_eq!(h.major, Limits::new(Length::mm(9.764), Length::mm(10.0)));
        let g = form.external_limits(class("6g")).unwrap();
        assert_eq!(g.major, h.major.moved(Length::mm(-0.032)));
        let e = form.external_limits(class("6e")).unwrap();
        assert_eq!(e.pitch, h.pitch.moved(Length::mm(-0.067)));
        let inside = form.internal_limits(class("6G")).unwrap();
        let plain = form.internal_limits(class("6H")).unwrap();
        assert_eq!(inside.minor, plain.minor.moved(Length::mm(0.032)));
        let fine = form.internal_limits(class("4H")).unwrap();
        assert!(fine.pitch.width() < plain.pitch.width());
        assert_eq!(
            plain.pitch,
            Limits::new(Length::mm(9.026), Length::mm(9.206))
        );
    }

    #[test]
    fn starts_change_no_limit_and_a_size_outside_the_tables_says_so() {
        let single = thread("M13x0.8").external_limits(class("6g")).unwrap();
        let triple = thread("M13x0.8 starts 3")
            .external_limits(class("6g"))
            .unwrap();
        assert_eq!(single, triple);
        assert_eq!(triple.from, LimitsFrom::Formula);
        assert!(triple.source.text().contains("formulas"));
        assert_eq!(
            triple.major,
            Limits::new(Length::mm(12.826), Length::mm(12.976))
        );
    }

    #[test]
    fn a_class_of_the_other_side_or_system_is_refused() {
        let form = thread("M10x1");
        for wrong in ["6H", "2A"] {
            let fault = form.external_limits(class(wrong)).unwrap_err();
            assert!(fault.to_string().contains("takes 6g"), "{fault}");
        }
        let fault = thread("1/2-20UNF")
            .internal_limits(class("6H"))
            .unwrap_err();
        assert!(fault.to_string().contains("takes 2B"), "{fault}");
        assert!(form.external_limits(class("5h")).is_err());
        assert!(form.external_limits(class("5h4h")).is_ok());
    }

    proptest::proptest! {
        /// Every thread has limits to its usual classes, in order, and figures that are finite.
        #[test]
        fn any_thread_has_sound_figures(major_um in 200i64..300_000, share in 1.5f64..200.0, starts in 1u32..25) {
            let major = Length::from_nm(major_um * 1000);
            let pitch = Length::mm((major.to_mm() / share).max(0.1));
            proptest::prop_assume!(pitch.to_mm() * 1.5 <= major.to_mm());
            let form = ThreadForm::metric(major, pitch).with_starts(starts);
            let outside = form.external_limits(ThreadClass::METRIC_EXTERNAL).unwrap();
            let inside = form.internal_limits(ThreadClass::METRIC_INTERNAL).unwrap();
            proptest::prop_assert!(outside.major.width().is_positive());
            proptest::prop_assert!(inside.minor.width().is_positive());
            proptest::prop_assert!(outside.pitch.max() <= inside.pitch.min());
            let tap = form.tap_drill();
            proptest::prop_assert!(tap.diameter < major && tap.diameter.is_positive());
            let wires = form.over_wires(None);
            proptest::prop_assert!(wires.over_mm.is_finite() && wires.contact_mm.is_finite());
        }
    }
}
