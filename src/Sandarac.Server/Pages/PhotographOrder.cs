using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages;

/// <summary>The order in which every page names photographs: of the painting before charts and flat fields, by light, by name.</summary>
internal static class PhotographOrder
{
    public static IEnumerable<Photograph> InOrder(this IEnumerable<Photograph> photographs) => photographs
        .OrderBy(p => p.Subject).ThenBy(p => LightOrder(p.Light)).ThenBy(p => p.FileName, StringComparer.Ordinal);

    private static int LightOrder(string? code) => Light.All.TakeWhile(light => light.Code != code).Count();
}
