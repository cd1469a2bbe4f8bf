using System.Globalization;

namespace Sandarac.Server.Tests.Language;

/// <summary>What is asked in its life is answered as to a request in Spanish.</summary>
internal sealed class InSpanish : IDisposable
{
    private readonly CultureInfo _before = CultureInfo.CurrentUICulture;

    public InSpanish() => CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("es");

    public void Dispose() => CultureInfo.CurrentUICulture = _before;
}
