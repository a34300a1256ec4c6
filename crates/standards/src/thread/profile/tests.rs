use super::*;

fn thread(designation: &str) -> ThreadForm {
    designation.parse().unwrap()
}

/// ISO 724 as printed, to the micrometre.
#[test]
fn basic_sizes_are_those_of_iso_724() {
    for row in quillet_reference::rows("metric_thread_basic.csv") {
        let form = ThreadForm::metric(
            Length::parse_mm(row.text("d_mm")).unwrap(),
            Length::parse_mm(row.text("pitch_mm")).unwrap(),
        );
        for (column, found) in [
            ("d2_mm", form.pitch_diameter()),
            ("d1_mm", form.minor_diameter()),
            ("d3_mm", form.root_diameter()),
        ] {
            let printed = row.number(column);
            assert!(
                (found.to_mm() - printed).abs() <= 0.0005 + 1e-9,
                "{row}: {column} {found}"
            );
        }
        for (column, found) in [
            ("d2_exact_mm", form.pitch_diameter()),
            ("d1_exact_mm", form.minor_diameter()),
            ("H_mm", form.height()),
        ] {
            assert!(
                (found.to_mm() - row.number(column)).abs() < 1.1e-6,
                "{row}: {column} {found}"
            );
        }
    }
}

#[test]
fn leads_and_lead_angles_of_multi_start_threads() {
    for row in quillet_reference::rows("multi_start_threads.csv") {
        let form = thread(row.text("designation"));
        assert_eq!(f64::from(form.starts()), row.number("starts"), "{row}");
        for (column, found, within) in [
            ("d_mm", form.major().to_mm(), 1e-9),
            ("pitch_mm", form.pitch_mm(), 1e-9),
            ("lead_mm", form.lead_mm(), 1e-9),
            ("d2_mm", form.pitch_diameter().to_mm(), 1e-6),
            ("lead_angle_at_d2_deg", form.lead_angle().to_deg(), 1e-6),
            (
                "lead_angle_at_d_deg",
                form.lead_angle_at_crest().to_deg(),
                1e-6,
            ),
            ("turns_per_mm_travel", 1.0 / form.lead_mm(), 1e-6),
            (
                "angle_between_starts_deg",
                form.start_spacing().to_deg(),
                1e-4,
            ),
        ] {
            assert!(
                (found - row.number(column)).abs() <= within,
                "{row}: {column} {found}"
            );
        }
    }
}

/// The volume oracle: mpmath quadrature of the ISO 68-1 basic profile.
#[test]
fn the_equal_volume_cylinder_agrees_with_quadrature() {
    let mut seen = 0;
    for row in quillet_reference::rows("revolution_oracle.csv") {
        let Some(size) = row.text("case").strip_prefix("thread_") else {
            continue;
        };
        let form = thread(&size.replace("xP", "x"));
        let found = match row.text("item") {
            "r_equal_volume" => form.equal_volume_radius_mm(Clip::Full),
            "r_major" => form.major().to_mm() / 2.0,
            "r_pitch" => form.pitch_diameter_mm() / 2.0,
            "r_minor" => form.minor_diameter_mm() / 2.0,
            other => panic!("{row}: {other:?} is not known here"),
        };
        let wanted = row.number("z0");
        assert!((found - wanted).abs() < 1e-12 * wanted, "{row}: {found}");
        seen += 1;
    }
    assert!(seen > 0, "no thread in the oracle");
}

/// The mean of r² by a fine sum over the profile, clipped by a crest between root and crest.
#[test]
fn a_crest_that_moves_along_the_thread_takes_its_share_of_each_pitch() {
    for (size, side) in [
        ("M10x1", ThreadSide::External),
        ("M13x0.8 starts 3", ThreadSide::External),
        ("7/16-28UNEF", ThreadSide::External),
        ("M10x0.75", ThreadSide::Internal),
        ("1/2-20UNF", ThreadSide::Internal),
    ] {
        let form = thread(size);
        let (root, crest) = (form.minor_diameter_mm() / 2.0, form.major().to_mm() / 2.0);
        let pitch = form.pitch_mm();
        let summed = |here: f64| {
            let steps = 100_000;
            let square = |step: i32| {
                let z = (f64::from(step) + 0.5) / f64::from(steps) * pitch;
                let down = (z - pitch / 2.0).abs() - pitch / 16.0;
                let r = (crest - down.max(0.0) * 3f64.sqrt()).max(root);
                let r = if side == ThreadSide::External {
                    r.min(here)
                } else {
                    r.max(here)
                };
                r * r
            };
            ((0..steps).map(square).sum::<f64>() / f64::from(steps)).sqrt()
        };
        for share in [0.0, 0.1, 0.5, 0.8, 1.0] {
            let here = root + share * (crest - root);
            let (radius, rate) = form.equal_volume_at_crest(side, here);
            assert!(
                (radius - summed(here)).abs() < 1e-8,
                "{size} at {here}: {radius}"
            );
            let step = 1e-5;
            let at = |r: f64| form.equal_volume_at_crest(side, r).0;
            let (low, high) = ((here - step).max(root), (here + step).min(crest));
            let found = (at(high) - at(low)) / (high - low);
            assert!(
                (rate - found).abs() < 1e-4,
                "{size} at {here}: {rate}, {found}"
            );
        }
        let full = form.equal_volume_radius_mm(Clip::Full);
        let untouched = if side == ThreadSide::External {
            9.0
        } else {
            1.0
        };
        assert_eq!(form.equal_volume_at_crest(side, untouched).0, full);
    }
}

/// Against the mean of r² taken by a fine sum over the clipped profile.
#[test]
fn a_real_bore_or_tenon_clips_the_crests() {
    let form = thread("M12x0.8 starts 3");
    let summed = |low: f64, high: f64| {
        let steps = 200_000;
        let sum: f64 = (0..steps)
            .map(|step| {
                let z = (f64::from(step) + 0.5) / f64::from(steps) * 0.8;
                let from_crest = (z - 0.4).abs() - 0.05;
                let r = (6.0 - from_crest * 3f64.sqrt())
                    .clamp(form.minor_diameter_mm() / 2.0, 6.0)
                    .clamp(low, high);
                r * r
            })
            .sum();
        (sum / f64::from(steps)).sqrt()
    };
    let bore = Length::mm(11.2);
    let tenon = Length::mm(11.9);
    assert!((form.equal_volume_radius_mm(Clip::Bore(bore)) - 5.76750).abs() < 5e-6);
    for (clip, low, high) in [
        (Clip::Bore(bore), 5.6, 6.0),
        (Clip::Tenon(tenon), 5.0, 5.95),
        (Clip::Bore(Length::mm(11.0)), 5.0, 6.0),
        (Clip::Tenon(Length::mm(12.4)), 5.0, 6.0),
    ] {
        let found = form.equal_volume_radius_mm(clip);
        assert!(
            (found - summed(low, high)).abs() < 1e-8,
            "{clip:?}: {found}"
        );
    }
    assert_eq!(
        form.equal_volume_radius_mm(Clip::Bore(Length::mm(12.5))),
        6.25
    );
    assert_eq!(
        form.equal_volume_radius_mm(Clip::Tenon(Length::mm(11.0))),
        5.5
    );
}
