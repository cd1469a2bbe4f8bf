using System.Globalization;
using Microsoft.Net.Http.Headers;
using Sandarac.Imaging;

namespace Sandarac.Server.Api;

/// <summary>The revision that a change was made on, as the request names it.</summary>
internal static class IfMatch
{
    /// <exception cref="InputProblem">The request names none ("revision-missing").</exception>
    public static int Revision(HttpRequest request) =>
        request.GetTypedHeaders().IfMatch is [EntityTagHeaderValue { IsWeak: false } tag]
            && int.TryParse(tag.Tag.AsSpan().Trim('"'), CultureInfo.InvariantCulture, out var revision)
            ? revision
            : throw new InputProblem("revision-missing", "If-Match", "The request does not say which revision it changes.",
                "Send If-Match with the revision you saw, in quotes.");
}
