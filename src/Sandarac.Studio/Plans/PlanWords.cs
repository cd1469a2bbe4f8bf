using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans;

/// <summary>How plans, their tables and pages say things.</summary>
public static class PlanWords
{
    /// <summary>From here on areas are said in cm2, mm2.</summary>
    private const double FromCm2 = 100;

    /// <summary>"before treatment".</summary>
    public static string Of(Occasion occasion) => occasion switch
    {
        Occasion.BeforeTreatment => "before treatment",
        Occasion.DuringTreatment => "during treatment",
        Occasion.AfterTreatment => "after treatment",
        Occasion.Outgoing => "outgoing",
        Occasion.Incoming => "incoming",
        Occasion.Check => "check",
        _ => "examination",
    };

    /// <summary>"12.3 ± 1.1 cm2", "0.8 mm2".</summary>
    public static string Area(double mm2, double? uncertaintyMm2)
    {
        var cm = Math.Abs(mm2) >= FromCm2;
        return Figure(cm ? mm2 / 100 : mm2, cm ? uncertaintyMm2 / 100 : uncertaintyMm2, cm ? "cm2" : "mm2");
    }

    /// <summary>"1.20 ± 0.11 % of the face".</summary>
    public static string Share(ZoneExtent extent) => Figure(100 * extent.FaceShare, 100 * extent.FaceShareUncertainty, "%");

    /// <summary>All that something takes: "12.3 ± 1.1 cm2, 2.1 ± 0.2 %; 3 lines, 120 mm; 4 points"; "no zone" when it takes nothing.</summary>
    public static string Extent(PlanExtent extent)
    {
        string[] parts =
        [
            extent.Extent.AreaMm2 > 0 ? $"{Area(extent.Extent.AreaMm2, extent.Extent.AreaUncertaintyMm2)}, {Share(extent.Extent)}" : "",
            extent.Lines > 0 ? $"{Count(extent.Lines, "line")}, {Figure(extent.LengthMm, extent.LengthUncertaintyMm, "mm")}" : "",
            extent.Points > 0 ? Count(extent.Points, "point") : "",
        ];
        return string.Join("; ", parts.Where(p => p.Length > 0)) is { Length: > 0 } text ? text : "no zone on the face";
    }

    /// <summary>"1 line", "3 lines".</summary>
    public static string Count(int n, string one) => string.Create(CultureInfo.InvariantCulture, $"{n} {one}{(n == 1 ? "" : "s")}");

    /// <summary>"4 May 2026".</summary>
    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>A figure with its uncertainty and unit.</summary>
    public static string Figure(double value, double? uncertainty, string unit)
    {
        var (text, off) = Rounding.Rounded(value, uncertainty);
        return off is null ? $"{text} {unit}" : $"{text} \u00b1 {off} {unit}";
    }
}
