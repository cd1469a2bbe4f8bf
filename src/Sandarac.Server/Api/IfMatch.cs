using System.Globalization;
using Microsoft.Net.Http.Headers;
using Sandarac.Imaging;

namespace Sandarac.Server.Api;

/// <summary>Revisions as requests and answers name them: a change says on which it was made.</summary>
internal static class IfMatch
{
    /// <summary>Says which revision an answer is, for the next change to name.</summary>
    public static void Tell(HttpResponse response, int revision) => response.Headers.ETag = string.Create(CultureInfo.InvariantCulture, $"\"{revision}\"");

    /// <exception cref="InputProblem">The request names none ("revision-missing").</exception>
    public static int Revision(HttpRequest request) =>
        request.GetTypedHeaders().IfMatch is [EntityTagHeaderValue { IsWeak: false } tag]
            && int.TryParse(tag.Tag.AsSpan().Trim('"'), CultureInfo.InvariantCulture, out var revision)
            ? revision
            : throw new InputProblem("revision-missing", "If-Match", "The request does not say which revision it changes.",
                "Send If-Match with the revision you saw, in quotes.");
}
