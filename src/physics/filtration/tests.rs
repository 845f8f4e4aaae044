use super::*;

fn filter() -> CakeFilter {
    CakeFilter {
        area: Area::from_square_metres(0.02),
        pressure: Pressure::from_kilopascals(2.0),
        viscosity: Viscosity::from_millipascal_seconds(1.0),
        cake_resistance_m_per_kg: 1e11,
        solids: Density::from_kilograms_per_cubic_metre(10.0),
        medium_resistance_per_m: 1e10,
    }
}

#[test]
fn time_and_volume_are_inverses() {
    for litres in [0.001, 0.1, 1.0, 50.0] {
        let volume = Volume::from_litres(litres);
        let back = filter().volume(filter().time(volume).unwrap()).unwrap();
        assert!((back / volume - 1.0).abs() < 1e-12);
    }
}

#[test]
fn the_flux_is_the_slope_of_volume_over_time() {
    let (one, step) = (Volume::from_litres(1.0), Volume::from_litres(1e-4));
    let seconds = filter().time(one + step).unwrap() - filter().time(one).unwrap();
    let slope = step.cubic_metres() / seconds.seconds() / 0.02;
    let flux = filter().flux(one + 0.5 * step).unwrap().metres_per_second();
    assert!((flux / slope - 1.0).abs() < 1e-6);
    assert!(filter().flux(Volume::ZERO).unwrap().metres_per_second() > flux);
}

#[test]
fn filters_without_resistance_or_drive_are_refused() {
    let open =
        CakeFilter { cake_resistance_m_per_kg: 0.0, medium_resistance_per_m: 0.0, ..filter() };
    assert!(open.time(Volume::from_litres(1.0)).is_err());
    let slack = CakeFilter { pressure: Pressure::ZERO, ..filter() };
    assert!(slack.volume(Time::from_minutes(1.0)).is_err());
    let negative = CakeFilter { medium_resistance_per_m: -1.0, ..filter() };
    assert!(matches!(
        negative.time(Volume::from_litres(1.0)),
        Err(PhysicsError::Impossible { .. })
    ));
    assert!(filter().time(Volume::ZERO).is_err() && filter().volume(Time::ZERO).is_err());
    let bare = CakeFilter { medium_resistance_per_m: 0.0, ..filter() };
    assert!(bare.flux(Volume::ZERO).is_err());
}

#[test]
fn more_pressure_does_not_help_a_fully_compressible_cake() {
    let at = |pressure| {
        compressible_resistance(1e12, Pressure::from_kilopascals(1.0), pressure, 1.0).unwrap()
    };
    let (low, high) = (Pressure::from_kilopascals(10.0), Pressure::from_kilopascals(90.0));
    let seconds = |pressure: Pressure| {
        let cake_resistance_m_per_kg = at(pressure);
        CakeFilter { pressure, cake_resistance_m_per_kg, medium_resistance_per_m: 0.0, ..filter() }
            .time(Volume::from_litres(1.0))
            .unwrap()
    };
    assert!((seconds(low) / seconds(high) - 1.0).abs() < 1e-12);
    assert!(compressible_resistance(1e12, low, high, 2.0).is_err());
    assert!(compressible_resistance(0.0, low, high, 0.5).is_err());
    assert!(compressible_resistance(1e12, Pressure::ZERO, high, 0.5).is_err());
}

#[test]
fn a_cake_of_grains_resists_like_its_bed() {
    let d = Length::from_micrometres(20.0);
    let k = permeability_kozeny_carman(d, 0.45).unwrap().square_metres();
    let alpha = cake_resistance_of_grains(d, 0.45, Density::from_si(1500.0)).unwrap();
    assert!((alpha * k * 1500.0 * 0.55 - 1.0).abs() < 1e-12);
    for porosity in [0.0, 1.0, 1.2, -0.1] {
        assert!(permeability_kozeny_carman(d, porosity).is_err(), "{porosity}");
    }
    assert!(cake_resistance_of_grains(d, 0.45, Density::ZERO).is_err());
    assert!(permeability_kozeny_carman(Length::ZERO, 0.4).is_err());
}

#[test]
fn beds_and_membranes_refuse_impossible_inputs() {
    let (one_bar, water) = (Pressure::from_bars(1.0), Viscosity::from_millipascal_seconds(1.0));
    let thin = Length::from_millimetres(1.0);
    assert!(darcy_flux(Area::ZERO, one_bar, water, thin).is_err());
    assert!(darcy_flux(Area::from_si(1e-12), one_bar, water, Length::ZERO).is_err());
    let membrane = Membrane {
        pore_radius: Length::from_micrometres(0.1),
        porosity: 0.5,
        thickness: Length::from_micrometres(100.0),
        tortuosity: 1.0,
    };
    assert!(membrane_flux(membrane, one_bar, water).is_ok());
    assert!(membrane_flux(membrane, Pressure::ZERO, water).is_err());
    assert!(membrane_flux(Membrane { porosity: 1.5, ..membrane }, one_bar, water).is_err());
}

#[test]
fn a_liquid_that_does_not_wet_is_pushed_down() {
    let (water, pore) = (SurfaceTension::from_si(0.072), Length::from_micrometres(10.0));
    let pressure = capillary_pressure(water, 2.0, pore).unwrap();
    assert!(capillary_rise(pressure, Density::from_si(998.0)).unwrap() < Length::ZERO);
    assert!(capillary_pressure(water, 0.0, Length::ZERO).is_err());
    assert!(capillary_pressure(SurfaceTension::ZERO, 0.0, pore).is_err());
    assert!(capillary_rise(pressure, Density::ZERO).is_err());
}

#[test]
fn a_cake_holds_liquid_between_its_grains() {
    let solids = Mass::from_grams(100.0);
    let held = liquid_in_cake(solids, Density::from_si(1500.0), 0.6, 1.0).unwrap();
    assert!((held.millilitres() - 100.0).abs() < 1e-9);
    assert!(liquid_in_cake(solids, Density::from_si(1500.0), 0.6, 1.5).is_err());
    assert!(liquid_in_cake(solids, Density::from_si(1500.0), 1.0, 1.0).is_err());
    assert!(liquid_in_cake(-solids, Density::from_si(1500.0), 0.6, 1.0).is_err());
    assert!(liquid_in_cake(solids, Density::ZERO, 0.6, 1.0).is_err());
}
