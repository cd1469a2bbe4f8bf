using System.Globalization;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Truth;

/// <summary>The list a careful photographer leaves beside the files.</summary>
internal static class PhotographList
{
    public static void Write(string path, SpecimenSettings settings, IReadOnlyList<Exposure> taken)
    {
        var lines = taken.Where(e => settings.Wants(e.FileName)).Select(e => string.Join(',',
            e.FileName, e.Light, e.Subject, e.LampAzimuth?.ToString(CultureInfo.InvariantCulture),
                e.LampElevation?.ToString(CultureInfo.InvariantCulture)));
        WholeFile.WriteText(path, string.Join('\n', ["file,light,subject,azimuth,elevation", .. lines]) + "\n");
    }
}
