using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("Cellarbook.Tests")]
