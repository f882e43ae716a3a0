namespace SensorLab.Shelf.Store;

/// <summary>The tables of the index, in plain types: text, int32, double, and timestamps in UTC.</summary>
internal static class IndexSchema
{
    /// <summary>
    /// The version of the tables: an index of another one is made anew from the profiles. Since 2 <c>iso_figure</c> holds
    /// <c>compressionPercent</c> and the looks' <c>hiddenShadowEv</c>.
    /// </summary>
    public const int Version = 2;

    /// <summary>The tables that are exported, in the order in which they depend on one another.</summary>
    public static IReadOnlyList<string> Tables { get; } = ["body", "profile", "iso_figure", "level", "finding"];

    /// <summary>Makes the tables.</summary>
    public const string Definition = """
        create table shelf (version integer not null);
        create table body (
          body varchar not null primary key,
          maker varchar, model varchar, serial_number varchar
        );
        create table profile (
          profile varchar not null primary key,
          body varchar not null,
          firmware varchar, created_utc timestamp,
          format_version varchar not null, software_name varchar not null, software_version varchar not null,
          bit_depth integer, compression varchar, shutter varchar, drive varchar, noise_reduction varchar, crop varchar, mode varchar,
          width_pixels integer not null, height_pixels integer not null, colour_filter_array varchar not null,
          light varchar, lens varchar, aperture_f_number double, temperature_celsius double, protocol varchar,
          middle_grey_method varchar not null, meter_step_ev double, meter_standard_uncertainty_ev double, meter_readings integer,
          isos varchar not null, notes integer not null, warnings integer not null, refusals integer not null
        );
        create table iso_figure (
          profile varchar not null, iso integer not null, channel varchar, figure varchar not null,
          value double, standard_uncertainty double, lower95 double, upper95 double, bound varchar,
          degrees_of_freedom double,
          budget_standard_uncertainty double, budget_lower95 double, budget_upper95 double, budget_degrees_of_freedom double
        );
        create table level (
          profile varchar not null, iso integer not null, level integer not null, role varchar not null,
          exposure_seconds double not null, aperture_f_number double, light_step varchar, light varchar, ev double,
          frames integer not null, pixels_per_channel double not null,
          channel varchar not null, mean_dn double not null, mean_uncertainty_dn double not null,
          temporal_variance_dn2 double, fixed_pattern_variance_dn2 double, band_variance_dn2 double,
          clipped_fraction double not null, used_in_fit integer not null
        );
        create table finding (
          profile varchar not null, number integer not null, code varchar not null, severity varchar not null,
          iso integer, channel varchar, size double, size_unit varchar, message varchar not null, remedy varchar not null, frames integer not null
        );
        """;
}
