namespace Bench.Model.BenchFiles;

/// <summary>A meter: value = raw · <see cref="Scale"/> + <see cref="Offset"/>, with its calibration.</summary>
public sealed record MeterDescription
{
    /// <summary>Where the raw value lives.</summary>
    public required Channel Channel { get; init; }

    /// <summary>Engineering units per raw unit.</summary>
    public required double Scale { get; init; }

    /// <summary>Engineering value at raw 0.</summary>
    public double Offset { get; init; }

    /// <summary>Standard uncertainty of a reading, in engineering units.</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>Day of the last calibration.</summary>
    public required DateOnly CalibratedOn { get; init; }

    /// <summary>Day by which it must be calibrated again.</summary>
    public required DateOnly CalibrationDueOn { get; init; }

    /// <summary>Number of the certificate.</summary>
    public required string Certificate { get; init; }
}
