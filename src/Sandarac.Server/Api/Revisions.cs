using System.Globalization;
using Microsoft.Net.Http.Headers;
using Sandarac.Imaging;

namespace Sandarac.Server.Api;

/// <summary>The revision that a change was made on.</summary>
internal static class Revisions
{
    /// <summary>The revision that If-Match names.</summary>
    /// <param name="request">The request.</param>
    /// <param name="what">What it changes: "zone".</param>
    /// <exception cref="InputProblem">"revision-missing": none, or not one that this server gave.</exception>
    public static int Named(HttpRequest request, string what) =>
        request.GetTypedHeaders().IfMatch is [EntityTagHeaderValue { IsWeak: false } tag]
            && int.TryParse(tag.Tag.AsSpan().Trim('"'), CultureInfo.InvariantCulture, out var revision)
            ? revision
            : throw new InputProblem("revision-missing", "If-Match", $"The request does not say which revision of the {what} it changes.", "Send If-Match with the revision you saw, in quotes.");
}
